#pragma once

#include <optional>
#include <vector>

#include "catalogue/kind.h"

namespace fettle {

/// Whether the group's present size is known to be that of its sheet.
enum class SizeHistory {
  stated,   ///< the step was seen: standard, or an oversize
  unknown,  ///< nobody knows whether it was machined before
};

/// Whether the group's readings are asked first how its wear runs along the length; an even pattern is taken as it is.
[[nodiscard]] bool learns_its_profile(WearPattern pattern);

/// What the kind says of wear before anything is read, by height (0 the first counted station, 1 the last), greatest 1: from_first
/// exp(−h/λ); both_ends exp(−h/λ) + exp(−(1 − h)/λ) over its value at an end; even 1. λ in `strokes`, the way from first to last; heights
/// outside count as the station next to them. docs/NUMBERS, "Shape model".
[[nodiscard]] double textbook_wear(WearPattern pattern, double height, double strokes);

/// What is known of a group of like worn parts before it is read. Lengths in µm count from the standard size (plus the step), positive in
/// the direction in which the surface wears: a larger bore, a smaller journal.
struct ShapeKnowledge {
  WearPattern pattern;
  std::vector<double> height;         ///< by station: 0 the first that counts, 1 the last, others in proportion
  std::vector<bool> wears;            ///< by station: neither a reference nor one that nothing runs on
  std::vector<double> angle_degrees;  ///< by direction, from the kind's main axis
  bool three_directions;              ///< three directions or more were read: ovality may lie askew
  double as_made_um;                  ///< middle of the maker's tolerance
  std::optional<double> tolerance_um; ///< its width; nothing: not known, and then the level says nothing of the setting
  SizeHistory history;

  bool operator==(const ShapeKnowledge&) const = default;
  [[nodiscard]] std::size_t cells() const { return height.size() * angle_degrees.size(); }
};

/// Heights by station as fractions of the way from the first to the last counted one; without depths evenly spaced, a reference half a
/// step outside. Needs a sound layout.
[[nodiscard]] std::vector<double> station_heights(const Layout& layout);

}  // namespace fettle
