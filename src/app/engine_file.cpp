#include "app/engine_file.h"

#include "catalogue/table_reader.h"
#include "job/job_words.h"

namespace fettle {
namespace {

std::vector<NewEngineAct::Answer> read_answers(const DocumentNode& node, Problems& problems) {
  std::vector<NewEngineAct::Answer> out;
  if (node.table() == nullptr) {
    problems.push_back({"engine.answer_kind", node.place, {verbatim("id", "answers")}});
    return out;
  }
  for (const auto& [question, answer] : *node.table()) {
    const auto* whole = std::get_if<std::int64_t>(&answer.value);
    if (answer.text() == nullptr && whole == nullptr) {
      problems.push_back({"engine.answer_kind", answer.place, {verbatim("id", question)}});
    } else {
      out.push_back({question, whole != nullptr ? std::to_string(*whole) : *answer.text()});
    }
  }
  return out;
}

NewEngineAct::Group read_group(const DocumentNode& node, Problems& problems) {
  TableReader reader(node, problems);
  NewEngineAct::Group out{reader.text("kind"), reader.optional_whole("count").value_or(1)};
  reader.finish();
  return out;
}

}  // namespace

Result<NewEngineAct> read_engine_file(std::string_view text, const std::string& file) {
  const auto document = read_document(text, file);
  if (!document.ok()) return document.problems();
  Problems problems;
  TableReader top(document.value(), problems);
  NewEngineAct out{};
  out.name = top.text("name");
  out.engine = top.optional_text("engine").value_or(out.name);
  out.shown_unit = top.optional_word("shown_unit", kShownUnits).value_or(UnitId::millimetre);
  out.decimal_mark = top.optional_word("decimal_mark", kMarkWords);
  out.number_one_end = top.optional_text("number_one_end");
  out.turns = top.optional_word("turns", kSides);
  out.seen_from = top.optional_text("seen_from");
  out.thrust_side = top.optional_text("thrust_side");
  if (top.node("left_out") != nullptr) out.left_out = top.texts("left_out");
  if (const DocumentNode* node = top.node("answers")) out.answers = read_answers(*node, problems);
  for (const DocumentNode* node : top.tables("group")) out.groups.push_back(read_group(*node, problems));
  top.finish();
  if (!problems.empty()) return problems;
  return out;
}

}  // namespace fettle
