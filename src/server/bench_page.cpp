#include "server/bench_page.h"

#include <algorithm>
#include <array>

#include "app/gauge_state.h"
#include "app/part_words.h"
#include "catalogue/kind_definitions.h"
#include "server/gauge_words.h"
#include "server/page_words.h"

namespace fettle {
namespace {

/// Offered first for a new engine.
constexpr std::array kUsualKinds = {"cylinder-bore", "main-journal", "crankpin", "piston"};

/// On which side of a bound a part may be by this definition.
std::vector<std::string> sides_of(const Definition& definition, Feature feature) {
  const std::string most(side_name(LimitSide::at_most));
  const std::string least(side_name(LimitSide::at_least));
  const bool inside = feature == Feature::inside;
  // The size at the unworn end may only be bounded on its own side, see limit_problems.
  if (definition.id == "size-3") return {inside ? least : most};
  if (definition.family == Family::size) return {inside ? most : least, inside ? least : most};
  if (definition.family == Family::clearance || definition.family == Family::figure) return {most, least};
  return {most};
}

std::vector<std::string> asks_of(const GaugePreset& preset) {
  switch (sort_of(preset)) {
    case GaugeSort::comparison: return {"division", "turn", "pressed_in"};
    case GaugeSort::direct: return preset.serves_as ? std::vector<std::string>{"reads", "on_standard"} : std::vector<std::string>{};
    case GaugeSort::master: return {"marked"};
  }
  return {};
}

}  // namespace

PresetChoice preset_choice(const GaugePreset& preset, Language language) {
  return {preset.id, word_for("gauge_preset." + preset.id, language), gauge_sort_name(sort_of(preset)), asks_of(preset)};
}

BenchPage bench_page(const BenchList& bench, Language language) {
  const PageWords words(language);
  BenchPage out;
  if (const auto& go_on = bench.go_on) {
    out.go_on = GoOnCard{go_on->job, go_on->part, go_on->name, words.title(go_on->where), {}, go_on->left ? words.say(*go_on->left) : "", words.line_or_none(go_on->warning)};
    if (go_on->next) out.go_on->next = words.say(*go_on->next);
  }
  for (const EngineOnBench& each : bench.engines) {
    out.engines.push_back({each.job, each.name, words.joined_line(each.line), std::string(verdict_word_name(each.word))});
  }
  return out;
}

KindListPage kind_list_page(const Catalogue& known, Language language) {
  const PageWords words(language);
  KindListPage out;
  for (const Kind& kind : known.kinds) {
    const std::string feature(feature_name(kind.feature));
    KindChoice choice{kind.id, words.say(group_message(kind.id)), feature, std::find(kUsualKinds.begin(), kUsualKinds.end(), kind.id) != kUsualKinds.end(), read_with_the_page(known, kind), {}, {}, !kind.members.empty()};
    if (const KindSection* section = known.section_of(kind.id)) choice.section = section->id;
    const KindDefinitions definitions = definitions_for(kind, known.definitions);
    for (const auto* list : {&definitions.usual, &definitions.with_more_places}) {
      for (const Definition* each : *list) {
        choice.definitions.push_back({each->id, word_for("definition." + each->id + "." + feature, language), sides_of(*each, kind.feature)});
      }
    }
    out.kinds.push_back(std::move(choice));
  }
  std::stable_sort(out.kinds.begin(), out.kinds.end(), [&](const auto& a, const auto& b) { return known.strip_place(a.id) < known.strip_place(b.id); });
  std::stable_sort(out.kinds.begin(), out.kinds.end(), [](const auto& a, const auto& b) { return a.usual && !b.usual; });
  for (const GaugePreset& each : known.gauge_presets) out.presets.push_back(preset_choice(each, language));
  for (const KindSection& each : known.sections) out.sections.push_back({each.id, word_for("section." + each.id, language)});
  return out;
}

}  // namespace fettle
