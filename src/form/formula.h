#pragma once

#include <span>
#include <vector>

#include "form/expand.h"

namespace fettle {

/// The value at `values` (by cell). A vector difference is √(a² + b² − 2ab·cos φ), φ between the two angles (reference.md 2.6, K-18). The
/// neighbour rule is |a − b| where the high spots lie within 45° of each other, a + b where they are opposite within 45°, else ¾·(a + b):
/// TM 9-2815-202-34 prints .003, .003 and .004 for these, so that one limit serves all three.
[[nodiscard]] double formula_value(const Formula& formula, std::span<const double> values);

/// How it moves with each of `cells`, in their order: exact derivatives. Of a vector difference of nothing every direction is as steep; that
/// of the first vector is taken.
[[nodiscard]] std::vector<double> formula_gradient(const Formula& formula, std::span<const double> values);

/// The formulas of an expression that is one, over the cells that enter: one for each item of its outermost max or min. Items that lack a
/// reading are left out.
[[nodiscard]] std::vector<Formula> formulas_of(const Expression& expression, const PartGrid& grid, const std::vector<bool>& entering);

}  // namespace fettle
