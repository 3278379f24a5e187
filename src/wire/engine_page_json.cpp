#include "wire/engine_page_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json engine_part(const EnginePage::Part& part) {
  return {{"id", part.id}, {"name", part.name}, {"measured", part.measured}, {"judged", part.judged}, {"line", part.line}};
}

Json engine_group(const EnginePage::Group& group) {
  return {{"kind", group.kind}, {"name", group.name}, {"state", group.state}, {"words", group.words}, {"parts", json::array_of(group.parts, engine_part)}};
}

Json engine_limit(const EnginePage::Limit& limit) {
  return {{"id", limit.id}, {"kind", limit.kind}, {"definition", limit.definition}, {"role", limit.role}, {"side", limit.side}, {"bound", limit.bound},
          {"origin", limit.origin}, {"rule_of_thumb", limit.rule_of_thumb}};
}

Json seen(const EnginePage::Seen& each) { return {{"part", each.part}, {"words", each.words}}; }

}  // namespace

std::string engine_page_json(const EnginePage& page) {
  Json out = json::page("fettle-engine");
  out["job"] = page.job;
  out["name"] = page.name;
  out["line"] = page.line;
  out["position"] = page.position;
  out["unit"] = page.unit;
  out["decimal_mark"] = json::or_null(page.decimal_mark);
  out["facts"] = page.facts;
  out["head"] = page.head;
  out["worry"] = json::or_null(page.worry);
  out["read_next"] = page.read_next ? seen(*page.read_next) : Json(nullptr);
  out["groups"] = json::array_of(page.groups, engine_group);
  out["gauges"] = json::array_of(page.gauges, [](const EnginePage::Gauge& each) { return Json{{"id", each.id}, {"name", each.name}, {"words", each.words}}; });
  out["limits"] = json::array_of(page.limits, engine_limit);
  out["findings"] = json::array_of(page.findings, seen);
  return json::text_of(out);
}

std::string acts_done_json(const ActsDonePage& page) {
  Json out = json::page("fettle-acts-done");
  out["events"] = json::array_of(page.events, [](const ActsDonePage::Act& each) {
    return Json{{"event", each.event}, {"at", each.at}, {"who", each.who}, {"words", each.words}, {"standing", each.standing}};
  });
  return json::text_of(out);
}

}  // namespace fettle
