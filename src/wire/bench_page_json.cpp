#include "wire/bench_page_json.h"

#include "wire/page_words.h"

namespace fettle {

using json::Json;

std::string bench_page_json(const BenchPage& page) {
  Json out = json::page("fettle-bench");
  out["go_on"] = nullptr;
  if (const auto& card = page.go_on) {
    out["go_on"] = {{"job", card->job}, {"part", card->part}, {"name", card->name}, {"where", card->where}, {"next", json::or_null(card->next)},
                    {"left", card->left}, {"warning", json::or_null(card->warning)}};
  }
  out["engines"] = json::array_of(page.engines, [](const EngineCard& each) {
    return Json{{"job", each.job}, {"name", each.name}, {"line", each.line}, {"state", each.state}};
  });
  return json::text_of(out);
}

std::string kind_list_json(const KindListPage& page) {
  Json out = json::page("fettle-kind-list");
  out["kinds"] = json::array_of(page.kinds, [](const KindChoice& kind) {
    return Json{{"id", kind.id}, {"name", kind.name}, {"feature", kind.feature}, {"usual", kind.usual}, {"on_page", kind.on_page},
                {"definitions", json::array_of(kind.definitions, [](const KindChoice::DefinitionChoice& each) {
                   return Json{{"id", each.id}, {"name", each.name}, {"sides", each.sides}};
                 })},
                {"section", json::or_null(kind.section)}, {"assembly", kind.assembly}};
  });
  out["presets"] = json::array_of(page.presets, json::preset_choice);
  out["sections"] = json::array_of(page.sections, [](const SectionName& each) { return Json{{"id", each.id}, {"name", each.name}}; });
  return json::text_of(out);
}

}  // namespace fettle
