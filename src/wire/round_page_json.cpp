#include "wire/round_page_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json round_reading(const RoundPage::Reading& reading) {
  return {{"event", reading.event}, {"text", reading.text}, {"said", json::or_null(reading.said)}, {"who", reading.who}, {"flag", json::or_null(reading.flag)},
          {"note", reading.note}, {"repeat", json::or_null(reading.repeat)}, {"question", json::or_null(reading.question)}};
}

Json round_spot(const RoundPage::Spot& spot) {
  return {{"station", spot.station}, {"direction", spot.direction}, {"name", spot.name}, {"where", spot.where}, {"order", spot.order}, {"wanted", spot.wanted},
          {"state", spot.state}, {"readings", json::array_of(spot.readings, round_reading)}, {"quantity", spot.quantity}, {"hand", json::or_null(spot.hand)}, {"suits", spot.suits}};
}

Json round_gauge(const RoundPage::Gauge& gauge) {
  return {{"id", gauge.id}, {"name", gauge.name}, {"sort", gauge.sort}, {"unit", json::or_null(gauge.unit)}, {"units", gauge.units}, {"strip", gauge.strip},
          {"sided", gauge.sided}, {"halves", gauge.halves}, {"both_ways", gauge.both_ways}};
}

Json round_setting(const SettingStrip& strip) {
  return {{"id", strip.id}, {"words", strip.words}, {"age_minutes", json::or_null(strip.age_minutes)}, {"stale", strip.stale}, {"why_stale", json::or_null(strip.why_stale)}};
}

Json round_hand(const RoundPage::Hand& hand) {
  return {{"gauge", round_gauge(hand.gauge)}, {"setting", round_setting(hand.setting)}, {"round", hand.round}, {"closed", hand.closed}, {"last_order", hand.last_order}};
}

Json round_zero_moved(const RoundPage::ZeroMoved& moved) {
  return {{"sentence", moved.sentence}, {"hang", moved.hang}, {"again", json::array_of(moved.again, [](const RoundPage::ZeroMoved::Again& each) {
            return Json{{"part", each.part}, {"station", each.station}, {"direction", each.direction}, {"words", each.words}};
          })}};
}

}  // namespace

std::string round_page_json(const RoundPage& page) {
  Json out = json::page("fettle-round");
  out["job"] = page.job;
  out["name"] = page.name;
  out["part"] = {{"id", page.part.id}, {"name", page.part.name}, {"of", page.part.of}, {"kind", page.part.kind}};
  out["position"] = page.position;
  out["gauge"] = page.gauge ? round_gauge(*page.gauge) : Json(nullptr);
  out["setting"] = page.setting ? round_setting(*page.setting) : Json(nullptr);
  out["round"] = page.round;
  out["closed"] = page.closed;
  out["hands"] = json::array_of(page.hands, round_hand);
  out["places"] = json::array_of(page.places, round_spot);
  out["next"] = json::or_null(page.next);
  out["pictures"] = {{"section", page.section}, {"plan", page.plan}};
  out["zero"] = {{"wanted", page.zero_wanted}, {"sentence", page.zero_sentence}, {"moved", page.zero_moved ? round_zero_moved(*page.zero_moved) : Json(nullptr)}};
  out["temperatures"] = {{"wanted", page.temperatures_wanted}};
  out["members"] = json::array_of(page.members, [](const RoundPage::Member& each) { return Json{{"id", each.id}, {"name", each.name}}; });
  out["conditions"] = page.conditions;
  out["how"] = page.how;
  out["mistakes"] = page.mistakes;
  out["cautions"] = page.cautions;
  out["after"] = page.after;
  out["flags"] = json::array_of(page.flags, [](const RoundPage::Flag& each) { return Json{{"id", each.id}, {"words", each.words}}; });
  out["last_order"] = page.last_order;
  out["decimal_mark"] = json::or_null(page.decimal_mark);
  out["held_by"] = page.held_by ? Json{{"who", page.held_by->who}, {"device", page.held_by->device}} : Json(nullptr);
  if (page.second) out["second"] = {{"lines", *page.second}};
  return json::text_of(out);
}

}  // namespace fettle
