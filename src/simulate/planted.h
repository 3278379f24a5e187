#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/words.h"
#include "simulate/engine.h"

namespace fettle {

/// A mistake that is put into an engine that was read honestly: a reading off by so many µm to a random side, one turn of the micrometer's
/// thimble (0.5 mm), one turn of the dial, the needle read on the other side, two digits exchanged, the two axes of a station exchanged, two
/// stations of one direction exchanged.
enum class PlantedKind { off_15, off_25, off_40, off_60, thimble_turn, dial_turn, needle_side, digits, axes, heights };

inline constexpr WordTable<PlantedKind, 10> kPlantedKinds{{{"off-15", PlantedKind::off_15},
                                                           {"off-25", PlantedKind::off_25},
                                                           {"off-40", PlantedKind::off_40},
                                                           {"off-60", PlantedKind::off_60},
                                                           {"thimble-turn", PlantedKind::thimble_turn},
                                                           {"dial-turn", PlantedKind::dial_turn},
                                                           {"needle-side", PlantedKind::needle_side},
                                                           {"digits-exchanged", PlantedKind::digits},
                                                           {"axes-exchanged", PlantedKind::axes},
                                                           {"heights-exchanged", PlantedKind::heights}}};

/// Which readings of the job were spoiled, and by how much.
struct Planted {
  PlantedKind kind;
  std::vector<std::size_t> readings;  ///< indices; one, or two that changed places
  double off_um;                      ///< of the first
};

/// Spoils one reading (or pair) drawn evenly among those in which this mistake changes what is written; nothing if there is none. A sign, an
/// exchange or swapped digits may change a figure by as little as a division: how far off it came is in `off_um`. The draws depend on the
/// engine's seed and number and on the kind alone.
[[nodiscard]] std::optional<Planted> plant(SimulatedEngine& engine, const EngineFamily& family, PlantedKind kind);

}  // namespace fettle
