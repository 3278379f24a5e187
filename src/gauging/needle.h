#pragma once

#include <cstdint>
#include <optional>

#include "catalogue/gauge_preset.h"
#include "entry/typed_quantity.h"
#include "gauging/gauge.h"

namespace fettle {

/// Where a needle stands: whole turns, then divisions of the dial, to one side of zero. No side at zero.
struct NeedlePlace {
  std::int64_t turns;
  Ratio divisions;
  std::optional<NeedleSide> side;
};

/// +1 if a clockwise needle means a larger part, −1 if a smaller one.
[[nodiscard]] int size_per_clockwise(Feature touches, NeedleSide pressed_in);

/// Where the needle must stand for a deviation of the part from the master (+ = larger part), in counts. Needs division > 0.
[[nodiscard]] NeedlePlace needle_place(const Ratio& deviation_counts, Length division, std::optional<Length> turn,
                                       int per_clockwise);

}  // namespace fettle
