#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/gauge_state.h"

namespace fettle {

/// A gauge in the hand, under one setting: what places are read with.
struct RoundHand {
  GaugeNow gauge;
  SettingNow setting;
  std::string round;          ///< of the readings under it
  std::vector<UnitId> units;  ///< in which its figures may be typed; one at least
  std::optional<UnitId> unit; ///< that it is read in: its own, or that of the last figure read with it; nothing: nobody has said
  bool both_ways;             ///< its figures have signs
};

/// What reads the places of a part.
struct HandsOfPart {
  std::vector<RoundHand> hands;
  std::vector<std::optional<std::size_t>> of_cell;  ///< of `hands`, by cell; nothing: no gauge of the job was set for it yet
};

/// A setting that a person chose.
struct HandAsked {
  std::optional<std::string> setting;
  std::optional<std::size_t> cell;   ///< for this place, also where the gauge is not the usual one; nothing: for those that it suits
  std::optional<std::string> round;  ///< under the setting
};

/// Whether a gauge of the sort can read the place at all: the gauge reads its quantity, and its feature or, as it stands, a figure.
[[nodiscard]] bool can_read(const GaugePreset& preset, const PartOnBench& part, const Kind& kind, std::size_t cell);
/// Whether the kind names it for the place; a diameter is read by whatever touches it.
[[nodiscard]] bool suits(const GaugePreset& preset, const PartOnBench& part, const Kind& kind, std::size_t cell);
/// The sorts of gauges of the catalogue that suit, the usual one first.
[[nodiscard]] std::vector<const GaugePreset*> presets_for(const Catalogue& known, const PartOnBench& part, std::size_t cell);

/// "station/direction"; nothing: there is no such place.
[[nodiscard]] std::optional<std::size_t> cell_named(const Layout& layout, std::string_view place);

/// For every place: the setting that was asked for where it suits; else the last one of the gauge that was last used there, on this part or
/// its like; else the last one of a gauge that suits. A diameter's setting was used on this kind or not at all, and aims at about its size;
/// a gauge that is only taken to hand serves all kinds. Under a lock on a part only its assembly is read.
[[nodiscard]] HandsOfPart hands_of(const RecordedJob& recorded, const PartOnBench& part, const HandAsked& asked, const Asking& asking);

}  // namespace fettle
