#include "gauging/gauge.h"

#include <algorithm>

namespace fettle {
namespace {

std::optional<Length> typed_length(const std::optional<TypedQuantity>& typed) {
  return typed ? exact_length(typed->quantity) : std::nullopt;
}

std::vector<ErrorComponent> with_replacements(const Gauge& gauge, const GaugePreset& preset) {
  std::vector<ErrorComponent> components = preset.components;
  for (const ErrorComponent& own : gauge.replaced) {
    const auto same = std::find_if(components.begin(), components.end(), [&](const auto& each) { return each.id == own.id; });
    if (same == components.end()) {
      components.push_back(own);
    } else {
      *same = own;
    }
  }
  return components;
}

}  // namespace

Result<KnownGauge> know_gauge(const Gauge& gauge, const std::vector<GaugePreset>& presets, const Place& place) {
  const auto preset =
      std::find_if(presets.begin(), presets.end(), [&](const auto& each) { return each.id == gauge.preset; });
  if (preset == presets.end()) {
    return Problem{"gauging.unknown_preset", place, {verbatim("gauge", gauge.id), verbatim("preset", gauge.preset)}};
  }
  if (gauge.reads.has_value() != gauge.on_standard.has_value()) {
    return Problem{"gauging.zero_half_recorded", place, {verbatim("gauge", gauge.id)}};
  }
  std::optional<Length> preset_division;
  if (preset->division) preset_division = exact_length(*preset->division);
  const auto reads = typed_length(gauge.reads);
  const auto standard = typed_length(gauge.on_standard);
  return KnownGauge{gauge.id,
                    &*preset,
                    gauge.division ? typed_length(gauge.division) : preset_division,
                    gauge.turn ? typed_length(gauge.turn) : preset->turn,
                    gauge.pressed_in,
                    reads && standard ? *reads - *standard : Length(),
                    reads && standard,
                    typed_length(gauge.marked),
                    with_replacements(gauge, *preset)};
}

}  // namespace fettle
