#pragma once

#include <string>
#include <vector>

#include "base/message.h"
#include "catalogue/layout.h"

namespace fettle {

/// The shape of a part along its length, in one direction.
enum class ShapeWord {
  even,              ///< no two stations differ by more than twice the uncertainty of a difference
  tapering_to_last,  ///< the size falls from first to last
  tapering_to_first,
  barrel,            ///< larger inside than at both ends
  waist,             ///< smaller inside than at both ends; a bore is called bell-mouthed
  uneven             ///< larger and smaller, but none of these
};

struct StationSize {
  std::string station;  ///< id
  double size_mm;
};

struct ShapeFinding {
  ShapeWord word;
  /// Key "shape." + word ("shape.bell_mouthed" for the waist of a bore) with direction, difference (largest minus smallest),
  /// largest and smallest station.
  Message message;
};

/// What is said of one direction.
struct ShapeQuestion {
  std::vector<StationSize> stations;  ///< counted ones, first to last; two or more
  std::string direction;              ///< id
  double difference_uncertainty_mm;   ///< standard uncertainty of the difference of two stations
  Feature feature;
  UnitId unit;                        ///< in which the figures are shown
};

/// Differences up to twice the uncertainty are taken for none, so noise alone rarely earns a word.
[[nodiscard]] ShapeFinding shape_word(const ShapeQuestion& question);

}  // namespace fettle
