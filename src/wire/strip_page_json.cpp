#include "wire/strip_page_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json strip_line(const StripPage::Line& each) {
  return {{"step", each.step}, {"act", each.act}, {"state", each.state}, {"what", each.what}, {"why", each.why}, {"words", each.words},
          {"before", each.before}, {"cautions", each.cautions}, {"order", each.order}, {"parts", each.parts},
          {"next", json::or_null(each.next)}, {"event", json::or_null(each.event)}};
}

Json strip_group(const StripPage::Group& each) {
  return {{"kind", each.kind}, {"name", each.name}, {"parts", each.parts}, {"step", each.step}, {"offset", json::or_null(each.offset)}, {"seen", each.seen}};
}

Json strip_ready(const StripPage::Ready& each) { return {{"state", each.state}, {"name", each.name}, {"words", each.words}, {"parts", each.parts}}; }

Json plan_choice(const EnginePlanPage::Choice& each) { return {{"id", each.id}, {"name", each.name}}; }

Json plan_question(const EnginePlanPage::Question& each) {
  return {{"id", each.id}, {"name", each.name}, {"choices", json::array_of(each.choices, plan_choice)}, {"least", each.least}, {"most", each.most}, {"answer", each.answer}, {"count", each.count}};
}

Json plan_group(const EnginePlanPage::Group& each) { return {{"kind", each.kind}, {"name", each.name}, {"parts", each.parts}, {"places", each.places}}; }

}  // namespace

std::string strip_page_json(const StripPage& page) {
  Json out = json::page("fettle-strip");
  out["job"] = page.job;
  out["name"] = page.name;
  out["position"] = page.position;
  out["unit"] = page.unit;
  out["head"] = page.head;
  out["worry"] = json::or_null(page.worry);
  out["next"] = json::or_null(page.next);
  out["warnings"] = page.warnings;
  out["steps"] = json::array_of(page.lines, strip_line);
  out["groups"] = json::array_of(page.groups, strip_group);
  out["ready"] = json::array_of(page.ready, strip_ready);
  return json::text_of(out);
}

std::string engine_plan_json(const EnginePlanPage& page) {
  Json out = json::page("fettle-engine-plan");
  out["questions"] = json::array_of(page.questions, plan_question);
  out["head"] = page.head;
  out["groups"] = json::array_of(page.groups, plan_group);
  return json::text_of(out);
}

}  // namespace fettle
