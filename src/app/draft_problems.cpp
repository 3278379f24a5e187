#include "app/draft_problems.h"

namespace fettle {
namespace {

/// The key of what the field is called on the page.
std::string field_words(SheetColumn column) {
  if (column == SheetColumn::characteristic) return "page.sheet.characteristic";
  return "page.sheet.col." + std::string(column_name(column == SheetColumn::fresh_min ? SheetColumn::fresh : column));
}

/// One problem inside another: what is wrong, and what to do, as sentences of it.
std::vector<Argument> inside(std::int64_t row, const Problem& problem) {
  return {count("row", row), list("what", {{"problem." + problem.code, problem.arguments}}), list("do", {{"problem." + problem.code + ".do", problem.arguments}})};
}

}  // namespace

Problems draft_problems(const SheetDraftRead& read) {
  Problems out = read.problems;
  for (std::size_t i = 0; i < read.rows.size(); ++i) {
    const auto number = static_cast<std::int64_t>(i + 1);
    for (const DraftCellRead& cell : read.rows[i].cells) {
      for (const Problem& each : cell.problems) {
        std::vector<Argument> arguments = inside(number, each);
        arguments.push_back(word("field", field_words(cell.column)));
        out.push_back({"acts.sheet_cell", each.place, std::move(arguments)});
      }
    }
    for (const Problem& each : read.rows[i].problems) out.push_back({"acts.sheet_row", each.place, inside(number, each)});
  }
  return out;
}

}  // namespace fettle
