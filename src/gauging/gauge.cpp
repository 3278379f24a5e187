#include "gauging/gauge.h"

#include <algorithm>

namespace fettle {
namespace {

std::vector<ErrorComponent> with_replacements(const Gauge& gauge, const GaugePreset& preset) {
  std::vector<ErrorComponent> components = preset.components;
  for (const ErrorComponent& own : gauge.replaced) {
    const auto same = std::find_if(components.begin(), components.end(), [&](const auto& each) { return each.id == own.id; });
    if (same == components.end()) {
      components.push_back(own);
    } else {
      // When it counts is a matter of the kind of gauge; only how large it is belongs to this specimen.
      const ErrorComponent preset_component = *same;
      *same = own;
      same->use = preset_component.use;
      same->set_on = preset_component.set_on;
    }
  }
  return components;
}

}  // namespace

Place place_of(const Gauge& gauge) {
  std::optional<TypedQuantity> of_kit;
  if (gauge.kit) of_kit = gauge.kit->travel;
  return first_line({&gauge.division, &gauge.turn, &gauge.reads, &gauge.on_standard, &gauge.marked, &of_kit});
}

Result<KnownGauge> know_gauge(const Gauge& gauge, const std::vector<GaugePreset>& presets, const Place& place) {
  const auto preset =
      std::find_if(presets.begin(), presets.end(), [&](const auto& each) { return each.id == gauge.preset; });
  if (preset == presets.end()) {
    return Problem{"gauging.unknown_preset", place, {verbatim("gauge", gauge.id), verbatim("preset", gauge.preset)}};
  }
  if (gauge.reads.has_value() != gauge.on_standard.has_value()) {
    return Problem{"gauging.zero_half_recorded", place, {verbatim("gauge", gauge.id)}};
  }
  for (const auto* typed : {&gauge.division, &gauge.turn}) {
    if (const auto given = exact_length(*typed); given && given->counts() <= 0) {
      return Problem{"gauging.division_not_positive", place, {verbatim("gauge", gauge.id), verbatim("text", (*typed)->text)}};
    }
  }
  std::optional<Length> preset_division;
  if (preset->division) preset_division = exact_length(*preset->division);
  std::optional<KnownKit> kit;
  if (gauge.kit) {
    if (preset->action != GaugeAction::comparison || preset->touches != Feature::inside) {
      return Problem{"gauging.kit_not_for", place, {verbatim("gauge", gauge.id)}};
    }
    Result<KnownKit> known = know_kit(*gauge.kit, gauge.id, place);
    if (!known.ok()) return known.problems();
    kit = std::move(known).value();
  }
  const auto reads = exact_length(gauge.reads);
  const auto standard = exact_length(gauge.on_standard);
  const UnitId own_unit = gauge.division    ? gauge.division->quantity.unit
                          : preset->division ? preset->division->unit
                                             : UnitId::millimetre;
  const bool same_unit = gauge.reads && gauge.reads->quantity.unit == own_unit;
  return KnownGauge{gauge.id,
                    &*preset,
                    gauge.division ? exact_length(gauge.division) : preset_division,
                    gauge.turn ? exact_length(gauge.turn) : preset->turn,
                    gauge.pressed_in,
                    reads && standard ? *reads - *standard : Length(),
                    reads && standard,
                    exact_length(gauge.marked),
                    with_replacements(gauge, *preset),
                    own_unit,
                    same_unit ? gauge.reads->decimals : 0,
                    kit ? kit->travel : preset->travel,
                    kit};
}

}  // namespace fettle
