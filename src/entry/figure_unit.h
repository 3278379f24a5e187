#pragma once

#include <optional>
#include <vector>

#include "units/unit.h"

namespace fettle {

/// A unit that is itself written as a figure ("1/100 mm", ".001 in") at the end of [from, to), with something before it.
/// "5 × 1/100 mm" says what is meant. "5 1/100 mm" does not: it may be 5 of them or five and a hundredth.
struct FigureUnit {
  const Unit* unit;
  std::size_t number_end;  ///< first code point behind the number before it
  std::size_t start;       ///< first code point of the unit
  bool has_times_sign;
};
[[nodiscard]] std::optional<FigureUnit> find_figure_unit(const std::vector<char32_t>& points, std::size_t from, std::size_t to);

}  // namespace fettle
