#include "wire/asked_again_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json asked_reading(const AskedAgainPage::Reading& each) {
  return {{"event", each.event}, {"part", each.part}, {"station", each.station}, {"direction", each.direction}, {"setting", each.setting}, {"text", each.text}};
}

Json asked_kind(const std::pair<std::string, std::int64_t>& each) { return {{"mistake", each.first}, {"in_100", each.second}}; }

Json asked_question(const AskedAgainPage::Question& each) {
  return {{"readings", json::array_of(each.readings, asked_reading)},
          {"part_name", each.part_name},
          {"place", each.place},
          {"mistake", each.mistake},
          {"why", each.why},
          {"sentence", each.sentence},
          {"in_100", each.in_100},
          {"shown", json::or_null(each.shown)},
          {"expected", json::or_null(each.expected)},
          {"expected_sd", json::or_null(each.expected_sd)},
          {"by_kind", json::array_of(each.by_kind, asked_kind)},
          {"put_off", each.put_off}};
}

}  // namespace

std::string asked_again_json(const AskedAgainPage& page) {
  Json out = json::page("fettle-asked-again");
  out["job"] = page.job;
  out["position"] = page.position;
  out["unit"] = page.unit;
  out["head"] = page.head;
  out["questions"] = json::array_of(page.questions, asked_question);
  return json::text_of(out);
}

}  // namespace fettle
