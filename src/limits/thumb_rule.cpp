#include "limits/thumb_rule.h"

#include <algorithm>

#include "base/document.h"
#include "catalogue/files.h"
#include "catalogue/table_reader.h"
#include "embedded/limits_files.h"

namespace fettle {
namespace {

constexpr const char* kThumbFile = "thumb.toml";

constexpr WordTable<ThumbSize, 5> kThumbSizes{{{"diameter", ThumbSize::diameter},
                                               {"length", ThumbSize::length},
                                               {"radius", ThumbSize::radius},
                                               {"growth", ThumbSize::growth},
                                               {"new-size", ThumbSize::new_size}}};
constexpr WordTable<ThumbReckoning, 5> kReckonings{{{"factor", ThumbReckoning::factor},
                                                    {"pi", ThumbReckoning::pi},
                                                    {"added", ThumbReckoning::added},
                                                    {"slope", ThumbReckoning::slope},
                                                    {"fixed", ThumbReckoning::fixed}}};
constexpr WordTable<LimitRole, 2> kThumbRoles{{{"new", LimitRole::fresh}, {"service", LimitRole::service}}};
constexpr WordTable<std::optional<LimitSide>, 3> kThumbSides{
    {{"around", std::nullopt}, {"at-most", LimitSide::at_most}, {"at-least", LimitSide::at_least}}};

/// What the way of reckoning needs must be there.
void check_reckoning(TableReader& table, const ThumbRule& rule) {
  const bool of_a_size = rule.reckoning == ThumbReckoning::factor || rule.reckoning == ThumbReckoning::pi || rule.reckoning == ThumbReckoning::added;
  if ((of_a_size || rule.over || rule.up_to) && !rule.of) table.missing("of");
  const bool has_figure = rule.reckoning == ThumbReckoning::added || rule.reckoning == ThumbReckoning::slope || rule.reckoning == ThumbReckoning::fixed;
  if (has_figure && !rule.figure) table.missing("figure");
  if (rule.reckoning == ThumbReckoning::slope && !rule.per) table.missing("per");
}

ThumbRule read_rule(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  ThumbRule out{table.text("id"),
                table.texts("about"),
                table.optional_text("definition"),
                table.word("role", kThumbRoles),
                table.word("side", kThumbSides),
                table.word("reckoning", kReckonings),
                table.optional_word("of", kThumbSizes),
                {},
                table.optional_quantity("figure"),
                table.optional_quantity("per"),
                table.optional_length("over"),
                table.optional_length("up_to"),
                table.optional_word("standard", kThumbSizes),
                table.word("mark", kMarks),
                table.text("origin")};
  if (out.about.empty()) table.missing("about");
  if (out.reckoning == ThumbReckoning::factor) out.factor = table.figure("factor");
  check_reckoning(table, out);
  if (table.optional_truth("makers_figure").value_or(true)) {
    problems.push_back(Problem{"limits.thumb_makers_figure", node.place, {verbatim("id", out.id)}});
  }
  table.finish();
  return out;
}

std::vector<ThumbRule> read_built_in_rules() {
  auto read = read_thumb_rules(limits_files(kThumbFile));
  if (read.ok()) return std::move(read).value();
  const Problem& first = read.problems().front();
  throw InternalError("the built-in rules of thumb: line " + std::to_string(first.place.line.value_or(0)) + " " + first.code);
}

}  // namespace

Result<std::vector<ThumbRule>> read_thumb_rules(std::string_view text) {
  Problems problems;
  const auto root = take(read_document(text, kThumbFile), problems);
  if (!root) return problems;
  TableReader table(*root, problems);
  std::vector<ThumbRule> out;
  std::vector<std::pair<std::string, Place>> ids;
  for (const DocumentNode* node : table.tables("rule")) {
    out.push_back(read_rule(*node, problems));
    ids.emplace_back(out.back().id, node->place);
  }
  refuse_ids_twice(ids, problems);
  table.finish();
  sort_by_place(problems);
  if (!problems.empty()) return problems;
  return out;
}

const std::vector<ThumbRule>& thumb_rules() {
  static const std::vector<ThumbRule> kRules = read_built_in_rules();
  return kRules;
}

std::vector<const ThumbRule*> thumb_rules_about(std::string_view about) {
  std::vector<const ThumbRule*> out;
  for (const ThumbRule& rule : thumb_rules()) {
    if (about.empty() || std::find(rule.about.begin(), rule.about.end(), about) != rule.about.end()) out.push_back(&rule);
  }
  return out;
}

std::string_view thumb_size_name(ThumbSize size) { return word_of(kThumbSizes, size).value_or(""); }
std::string_view thumb_mark_name(Mark mark) { return word_of(kMarks, mark).value_or(""); }

}  // namespace fettle
