#pragma once

#include <optional>
#include <vector>

#include "entry/typed_quantity.h"

namespace fettle {

/// Takes a needle side off the front or the end of the text [from, to): "31 cw", "cw 31", "31 ↺". Moves the ends inward. Two sides
/// that are the same count as one; two that differ give `conflict`.
struct TakenSide {
  std::optional<NeedleSide> side;
  bool conflict;
};
[[nodiscard]] TakenSide take_needle_side(const std::vector<char32_t>& points, std::size_t& from, std::size_t& to);

}  // namespace fettle
