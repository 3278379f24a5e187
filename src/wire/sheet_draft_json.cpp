#include "wire/sheet_draft_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json draft_problem(const SaidProblem& problem) { return {{"code", problem.code}, {"what", problem.what}, {"do", problem.to_do}}; }

Json draft_cell(const SheetDraftPage::Cell& cell) {
  return {{"column", cell.column}, {"understood", json::or_null(cell.understood)}, {"problems", json::array_of(cell.problems, draft_problem)}};
}

Json draft_row(const SheetDraftPage::Row& row) {
  return {{"row", row.row},
          {"name", row.name},
          {"cells", json::array_of(row.cells, draft_cell)},
          {"problems", json::array_of(row.problems, draft_problem)},
          {"waits", json::or_null(row.waits)},
          {"limits", row.limits},
          {"open", row.open},
          {"unused", json::or_null(row.unused)}};
}

Json draft_place(const SheetDraftPage::Place& place) { return {{"row", place.row}, {"field", place.field}}; }

Json draft_put_right(const SheetDraftPage::PutRight& each) {
  return {{"row", each.at.row}, {"field", each.at.field}, {"where", each.where}, {"printed", each.printed}, {"to", each.to}, {"said", each.said}};
}

Json draft_finding(const SheetDraftPage::Finding& finding) {
  return {{"rule", finding.rule},
          {"sure", finding.sure},
          {"sure_words", finding.sure_words},
          {"arithmetic", finding.arithmetic},
          {"spots", json::array_of(finding.spots, draft_place)},
          {"spot_words", finding.spot_words},
          {"printed", finding.printed},
          {"printed_said", finding.printed_said},
          {"likeliest", json::array_of(finding.likeliest, draft_put_right)},
          {"decided", json::or_null(finding.decided)}};
}

Json choice(const DefinitionListPage::Choice& each) { return {{"id", each.id}, {"name", each.name}, {"usual", each.usual}, {"picture", each.picture}}; }

}  // namespace

std::string sheet_draft_json(const SheetDraftPage& page) {
  Json out = json::page("fettle-sheet-draft-proof");
  out["problems"] = json::array_of(page.problems, draft_problem);
  out["rows"] = json::array_of(page.rows, draft_row);
  out["findings"] = json::array_of(page.findings, draft_finding);
  out["decisions"] = json::array_of(page.decisions, [](const SheetDraftPage::Decision& each) { return Json{{"said", each.said}, {"holds", each.holds}}; });
  out["limits"] = page.limits;
  out["sentence"] = page.sentence;
  return json::text_of(out);
}

std::string definition_list_json(const DefinitionListPage& page) {
  Json out = json::page("fettle-definition-list");
  out["kind"] = page.kind;
  out["name"] = page.name;
  out["characteristics"] = json::array_of(page.characteristics, [](const DefinitionListPage::Characteristic& each) {
    return Json{{"id", each.id}, {"name", each.name}, {"must_name", each.must_name}, {"definitions", json::array_of(each.definitions, choice)}};
  });
  return json::text_of(out);
}

}  // namespace fettle
