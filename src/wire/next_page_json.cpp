#include "wire/next_page_json.h"

#include "wire/page_words.h"

namespace fettle {
namespace {

using json::Json;

Json next_place(const NextPage::Place& each) {
  return {{"part", each.part}, {"station", each.station}, {"direction", each.direction}, {"setting", each.setting}, {"times", each.times}, {"words", each.words}};
}

Json next_act(const NextPage::Act& each) {
  return {{"sort", each.sort}, {"what", each.what}, {"time", each.time}, {"settles", each.settles}, {"chance", each.chance}, {"minutes", each.minutes},
          {"setting", each.setting}, {"places", json::array_of(each.places, next_place)}, {"why", json::or_null(each.why)}};
}

Json next_advice(const NextPage::Advice& each) {
  return {{"part", json::or_null(each.part)}, {"kind", each.kind}, {"name", each.name}, {"doubt", each.doubt},
          {"acts", json::array_of(each.acts, next_act)}, {"useless", json::array_of(each.useless, next_act)}};
}

}  // namespace

std::string next_page_json(const NextPage& page) {
  Json out = json::page("fettle-next");
  out["job"] = page.job;
  out["position"] = page.position;
  out["head"] = page.head;
  out["groups"] = json::array_of(page.groups, next_advice);
  out["parts"] = json::array_of(page.parts, next_advice);
  out["notes"] = page.notes;
  return json::text_of(out);
}

}  // namespace fettle
