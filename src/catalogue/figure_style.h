#pragma once

#include <string>

#include "catalogue/expression.h"

namespace fettle {

/// How a figure of a definition is shown: exact · exact_factor, or estimate · estimate_factor, with so many decimals, in `unit`.
struct FigureStyle {
  std::string unit;        ///< symbol; "1" for a pure number
  Ratio exact_factor;
  double estimate_factor;
  int decimals;
};

/// Lengths in `length_unit`, all else in a usual unit: N, N/mm, cm³, degrees.
[[nodiscard]] FigureStyle usual_style(ResultDimension dimension, UnitId length_unit);

/// As the bound of a limit was typed ("lbf", "lbf" per "1 in"): lengths stay in `length_unit`, other quantities in the typed unit.
[[nodiscard]] FigureStyle style_as_typed(ResultDimension dimension, UnitId length_unit, UnitId typed);

/// Of what was read at one place: lengths in `length_unit`, all else in a usual unit: N, N·m, kPa, cm³, g, degrees.
[[nodiscard]] FigureStyle style_read(Dimension quantity, UnitId length_unit);

[[nodiscard]] std::string shown(const Ratio& exact, const FigureStyle& style);
[[nodiscard]] std::string shown(double estimate, const FigureStyle& style);

}  // namespace fettle
