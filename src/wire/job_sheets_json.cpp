#include "wire/job_sheets_json.h"

#include "wire/page_words.h"
#include "wire/sheet_draft_fields.h"

namespace fettle {
namespace {

using json::Json;

Json decision_json(const SheetDecision& each) {
  Json out = {{"rule", each.rule}, {"row", each.row}, {"field", each.field}, {"printed", each.printed}, {"decided", std::string(word_of(json::kDecidedWords, each.decided).value_or(""))},
              {"who", each.who},   {"when", each.when}};
  if (!each.to.empty()) out["to"] = each.to;
  return out;
}

/// What read_draft_body reads.
Json draft_json(const SheetDraft& draft) {
  Json out = {{"book", draft.book}, {"edition", draft.edition}, {"page", draft.page}};
  if (draft.original) out["original"] = std::string(word_of(json::kOriginalWords, *draft.original).value_or(""));
  if (draft.unit) out["unit"] = std::string(word_of(json::kPageUnitWords, *draft.unit).value_or(""));
  out["rows"] = json::array_of(draft.rows, [](const SheetDraftRow& row) {
    Json cells = Json::object();
    for (const auto& [column, text] : row.cells) cells[std::string(column_name(column))] = text;
    return Json{{"id", row.id}, {"cells", std::move(cells)}};
  });
  out["decisions"] = json::array_of(draft.decisions, decision_json);
  return out;
}

Json word_json(const std::optional<SheetEffectPage::Word>& word) { return word ? Json{{"state", word->state}, {"words", word->words}} : Json(nullptr); }

Json change_json(const SheetEffectPage::Change& each) {
  return {{"name", each.name}, {"other_word", each.other_word}, {"before", word_json(each.before)}, {"now", word_json(each.now)}};
}

}  // namespace

std::string job_sheets_json(const JobSheetsPage& page) {
  Json out = json::page("fettle-sheets");
  out["position"] = page.position;
  out["sheets"] = json::array_of(page.sheets, [](const JobSheetsPage::Sheet& each) {
    return Json{{"sheet", each.sheet},
                {"versions", each.versions},
                {"limits", each.limits},
                {"draft", draft_json(each.draft)},
                {"unused", json::array_of(each.unused, [](const JobSheetsPage::Unused& row) { return Json{{"row", row.row}, {"what", row.what}, {"why", row.why}}; })}};
  });
  return json::text_of(out);
}

std::string sheet_effect_json(const SheetEffectPage& page) {
  Json out = json::page("fettle-sheet-effect");
  out["problems"] = json::array_of(page.problems, [](const SaidProblem& each) { return Json{{"code", each.code}, {"what", each.what}, {"do", each.to_do}}; });
  out["sentence"] = page.sentence;
  out["verdicts"] = json::array_of(page.verdicts, change_json);
  out["parts"] = json::array_of(page.parts, change_json);
  out["engine"] = page.engine ? change_json(*page.engine) : Json(nullptr);
  return json::text_of(out);
}

}  // namespace fettle
