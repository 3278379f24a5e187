#include "wire/setting_page_json.h"

#include "wire/event_reader.h"
#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json said_problems(const std::vector<SaidProblem>& problems) {
  return json::array_of(problems, [](const SaidProblem& each) { return Json{{"code", each.code}, {"what", each.what}, {"do", each.to_do}}; });
}

Json gauge_of_page(const GaugePage::Gauge& gauge) {
  Json out = {{"id", gauge.id}, {"name", gauge.name}, {"sort", gauge.sort}, {"unit", gauge.unit}, {"words", gauge.words}, {"usable", gauge.usable},
              {"why_not", json::or_null(gauge.why_not)}, {"setting", nullptr}, {"suits", gauge.suits}};
  if (const auto& setting = gauge.setting) {
    const SettingStrip& strip = setting->strip;
    out["setting"] = {{"id", strip.id}, {"words", strip.words}, {"age_minutes", json::or_null(strip.age_minutes)}, {"stale", strip.stale},
                      {"why_stale", json::or_null(strip.why_stale)}, {"zero_words", setting->zero_words}, {"round", setting->round}};
  }
  return out;
}

Json rods_of_page(const SettingPage::Rods& rods) { return {{"sentence", rods.sentence}, {"lines", rods.lines}, {"picture", rods.picture}}; }

Json set_to_of_page(const SettingPage::SetTo& set_to) {
  return {{"digits", set_to.digits}, {"unit", set_to.unit}, {"sentence", set_to.sentence}, {"picture", set_to.picture},
          {"tolerance", json::or_null(set_to.tolerance)}, {"really", json::or_null(set_to.really)}};
}

}  // namespace

std::string gauge_page_json(const GaugePage& page) {
  Json out = json::page("fettle-gauge-page");
  out["gauges"] = json::array_of(page.gauges, gauge_of_page);
  out["suits"] = json::array_of(page.suits, json::preset_choice);
  return json::text_of(out);
}

std::string setting_page_json(const SettingPage& page) {
  Json out = json::page("fettle-setting-page");
  out["gauge"] = page.gauge;
  out["for"] = page.what_for;
  out["setting"] = page.setting;
  out["masters"] = json::array_of(page.masters, [](const SettingPage::Master& each) { return Json{{"id", each.id}, {"name", each.name}}; });
  out["master"] = json::or_null(page.master);
  out["wanted"] = json::or_null(page.wanted);
  out["problems"] = said_problems(page.problems);
  out["rods"] = page.rods ? rods_of_page(*page.rods) : Json(nullptr);
  out["set_to"] = page.set_to ? set_to_of_page(*page.set_to) : Json(nullptr);
  out["zeros"] = {{"times", page.zeros.times}, {"apart", page.zeros.apart}, {"sentence", page.zeros.sentence}, {"lines", page.zeros.lines}};
  out["sense"] = {{"known", json::or_null(page.sense.known)}, {"sentence", page.sense.sentence}, {"picture", page.sense.picture}};
  out["proof"] = page.proof ? Json{{"sentence", *page.proof}} : Json(nullptr);
  out["pointers"] = page.pointers ? Json{{"picture", page.pointers->picture}, {"lines", page.pointers->lines}} : Json(nullptr);
  out["same_as_last"] = page.same_as_last ? Json{{"lines", page.same_as_last->lines}, {"set", page.same_as_last->set}, {"master", page.same_as_last->master},
                                                    {"wanted", json::or_null(page.same_as_last->wanted)}} : Json(nullptr);
  out["cautions"] = page.cautions;
  return json::text_of(out);
}

Result<ProofBody> read_proof_body(const std::string& body) {
  Problems problems;
  const Place place{};
  const auto node = json::read_line(body, place, problems);
  if (!node) return problems;
  json::EventReader reader(*node, json::Spot{"", place, problems});
  ProofBody out{};
  reader("gauge", out.gauge);
  reader("for", out.what_for);
  reader("master", out.master);
  reader("size", out.size);
  reader("set", out.set);
  reader("shows", out.shows);
  reader("side", out.side);
  reader.finish();
  if (!problems.empty()) return problems;
  return out;
}

std::string proof_json(const std::string& outcome, const std::string& sentence) {
  Json out = json::page("fettle-proof");
  out["outcome"] = outcome;
  out["sentence"] = sentence;
  return json::text_of(out);
}

}  // namespace fettle
