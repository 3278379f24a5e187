#include "wire/verdict_page_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json verdict_definitions(const VerdictPage::Definitions& definitions) {
  return {{"line", definitions.line}, {"rows", json::array_of(definitions.rows, [](const VerdictPage::Definition& each) {
             return Json{{"name", each.name}, {"value", each.value}, {"state", each.state}, {"word", each.word}, {"own", each.own}};
           })}};
}

Json verdict_taken(const VerdictPage::Taken& taken) { return {{"who", taken.who}, {"word", taken.word}, {"why", taken.why}, {"at", taken.at}}; }

Json verdict_row(const VerdictPage::Row& row) {
  Json out = {{"part", row.part}, {"limit", row.limit}, {"name", row.name}, {"where", row.where}, {"state", row.state}, {"word", row.word},
              {"overruled", row.overruled}, {"figures", row.figures}, {"chance", row.chance}, {"bar", row.bar}, {"picture", json::or_null(row.picture)}};
  out["readings"] = json::array_of(row.readings, [](const VerdictPage::Reading& each) {
    return Json{{"where", each.where}, {"text", each.text}, {"said", json::or_null(each.said)}, {"who", each.who}, {"note", each.note}};
  });
  out["sizes"] = json::array_of(row.sizes, [](const VerdictPage::SizeAt& each) {
    return Json{{"where", each.where}, {"as_measured", each.as_measured}, {"best", json::or_null(each.best)}};
  });
  out["moved"] = row.moved;
  out["limit_line"] = row.limit_line;
  out["rule_line"] = row.rule_line;
  out["judged_by"] = row.judged_by;
  out["doubt"] = json::array_of(row.doubt, [](const VerdictPage::Doubt& each) { return Json{{"name", each.name}, {"share", each.share}, {"bar", each.bar}}; });
  out["definitions"] = row.definitions ? verdict_definitions(*row.definitions) : Json(nullptr);
  out["settle"] = json::lines_or_null(row.settle);
  out["taken"] = row.taken ? verdict_taken(*row.taken) : Json(nullptr);
  return out;
}

}  // namespace

std::string verdict_page_json(const VerdictPage& page) {
  Json out = json::page("fettle-verdict-page");
  out["job"] = page.job;
  out["name"] = page.name;
  out["position"] = page.position;
  out["sentence"] = page.sentence;
  out["joint"] = page.joint;
  out["rule"] = page.rule;
  out["rows"] = json::array_of(page.rows, verdict_row);
  out["not_judged"] = json::array_of(page.not_judged, [](const VerdictPage::NotJudged& each) { return Json{{"part", each.part}, {"name", each.name}, {"why", each.why}}; });
  out["by_eye"] = json::array_of(page.by_eye, [](const VerdictPage::Seen& each) { return Json{{"part", each.part}, {"words", each.words}}; });
  out["groups"] = json::array_of(page.groups, [](const VerdictPage::Group& each) { return Json{{"name", each.name}, {"state", each.state}, {"words", each.words}}; });
  out["notices"] = page.notices;
  out["cautions"] = page.cautions;
  return json::text_of(out);
}

}  // namespace fettle
