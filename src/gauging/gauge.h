#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/gauge_preset.h"
#include "entry/typed_quantity.h"
#include "gauging/gauge_kit.h"

namespace fettle {

/// A gauge of this workshop: a preset with what is known of this specimen.
struct Gauge {
  std::string id;
  std::string preset;                             ///< id in the catalogue
  std::optional<TypedQuantity> division;          ///< of this specimen; nothing: the preset's
  std::optional<TypedQuantity> turn;              ///< one turn of the needle; nothing: the preset's
  std::optional<NeedleSide> pressed_in;           ///< where the needle goes when the sprung contact is pressed in
  std::optional<TypedQuantity> reads;             ///< a direct gauge's reading on its standard ...
  std::optional<TypedQuantity> on_standard;       ///< ... and the standard's size
  std::optional<TypedQuantity> marked;            ///< marked size of a ring or a stack of blocks
  std::vector<ErrorComponent> replaced;           ///< components that stand in place of the preset's with the same id
  std::optional<GaugeKit> kit = {};               ///< rods and washers of a bore gauge
  bool operator==(const Gauge&) const = default;
};

/// The gauge with its preset looked up and the specimen's own figures put in.
struct KnownGauge {
  std::string id;
  const GaugePreset* preset;
  std::optional<Length> division;
  std::optional<Length> turn;
  std::optional<NeedleSide> pressed_in;
  Length zero_error;               ///< what it reads too much; zero where nothing was recorded
  bool zero_recorded;
  std::optional<Length> marked;
  std::vector<ErrorComponent> components;
  UnitId own_unit = UnitId::millimetre;    ///< of its thimble or dial
  int zero_decimals = 0;                   ///< decimals to which it was read on its standard, in its own unit
  std::optional<Length> travel = {};       ///< of the sprung contact: the kit's, else the preset's
  std::optional<KnownKit> kit = {};
};

/// Looks the preset up. Problems: gauging.unknown_preset, gauging.zero_half_recorded (reads without
/// on_standard or the reverse), gauging.division_not_positive (division or turn of nothing or less), gauging.kit_not_for (a kit, but no
/// bore gauge), and those of know_kit.
[[nodiscard]] Result<KnownGauge> know_gauge(const Gauge& gauge, const std::vector<GaugePreset>& presets, const Place& place);

/// The line on which something of the gauge was typed, as far as it is known.
[[nodiscard]] Place place_of(const Gauge& gauge);

}  // namespace fettle
