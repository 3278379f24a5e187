#include "cli/thumb_command.h"

#include <algorithm>

#include "base/joined.h"
#include "cli/exit_code.h"
#include "cli/thumb_text.h"
#include "limits/thumb_limits.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

std::optional<TypedQuantity> typed_size(const std::string& text, Problems& problems) {
  if (text.empty()) return std::nullopt;
  return take(read_quantity(text, {{}, Dimension::length, {}, {}, false, {}}, {}), problems);
}

ThumbSizes read_sizes(const ThumbAsked& asked, Problems& problems) {
  ThumbSizes out{typed_size(asked.diameter, problems), typed_size(asked.length, problems), typed_size(asked.radius, problems),
                 typed_size(asked.growth, problems), typed_size(asked.new_size, problems)};
  for (Problem& each : thumb_problems(out)) problems.push_back(std::move(each));
  return out;
}

std::string known_things() {
  std::vector<std::string> out;
  for (const ThumbRule& rule : thumb_rules()) {
    for (const std::string& each : rule.about) {
      if (std::find(out.begin(), out.end(), each) == out.end()) out.push_back(each);
    }
  }
  return joined(out);
}

}  // namespace

RunResult run_thumb(const ThumbAsked& asked, Language language) {
  Problems problems;
  const ThumbSizes sizes = read_sizes(asked, problems);
  const auto rules = thumb_rules_about(asked.about);
  if (rules.empty()) problems.push_back(Problem{"cli.no_thumb_rule", {}, {verbatim("id", asked.about), verbatim("known", known_things())}});
  if (problems.empty()) return {kFine, asked.json ? thumb_json(rules, sizes) : thumb_text(asked.about, rules, sizes, language), {}};
  RunResult out{kInput, {}, {}};
  if (asked.json) out.out = problems_json(problems);
  for (const Problem& each : problems) {
    if (!asked.json) out.error += sentence(each, language) + "\n";
  }
  return out;
}

}  // namespace fettle
