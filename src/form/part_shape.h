#pragma once

#include <string>
#include <vector>

#include "form/group_estimate.h"
#include "form/lobe_check.h"
#include "form/shape_words.h"

namespace fettle {

/// The oval of one station that was read in three directions or more, and whether one reading stands out of it.
struct StationOval {
  std::size_t station;
  std::vector<std::size_t> directions;
  LobeCheck check;
};

/// The shape of one part beside its characteristics: along the length in words, and across it by the two-lobe fit.
struct PartShape {
  std::string part;
  std::vector<ShapeFinding> along;  ///< by direction with two or more counted stations
  std::vector<StationOval> ovals;
};

/// From the estimates of the counted places. What stations share cancels out of a difference, so the words rest on the readings' own
/// doubt. `unit` is the one in which figures are shown.
[[nodiscard]] PartShape part_shape(const PartOnBench& part, const PartEstimate& estimate,
                                   const std::vector<ErrorSource>& sources, UnitId unit);

[[nodiscard]] std::string_view lobe_word_name(LobeWord word);

/// Standard uncertainty (mm) of the difference of two places, with what they share cancelled.
[[nodiscard]] double difference_uncertainty(const PlaceEstimate& a, const PlaceEstimate& b, const std::vector<ErrorSource>& sources);

}  // namespace fettle
