#pragma once

#include <optional>
#include <span>
#include <vector>

#include "form/expand.h"

namespace fettle {

/// The value at `values` (by cell). A vector difference is √(a² + b² − 2ab·cos φ), φ between the two angles (reference.md 2.6, K-18). The
/// neighbour rule is |a − b| where the high spots lie within 45° of each other, a + b where they are opposite within 45°, else ¾·(a + b):
/// TM 9-2815-202-34 prints .003, .003 and .004 for these, so that one limit serves all three.
/// Nothing where no such figure exists: see FormulaTrouble.
[[nodiscard]] std::optional<double> formula_value(const Formula& formula, std::span<const double> values);

/// Why there is no figure, with the cells that the failing step looks at.
struct FormulaTrouble {
  enum class Sort {
    no_triangle,         ///< a cosine beyond 1: sides that meet in no triangle
    divided_by_nothing,
    too_large,           ///< past 9e9 mm, degrees or base units; an angle past 1e6 degrees
  };
  Sort sort;
  std::vector<std::size_t> cells;  ///< ascending
  bool operator==(const FormulaTrouble&) const = default;
};

/// Nothing exactly where formula_value has a figure; the innermost and first of several.
[[nodiscard]] std::optional<FormulaTrouble> formula_trouble(const Formula& formula, std::span<const double> values);

/// How far one step of a formula is from where it has no figure: 1 less the cosine's amount, or the amount of what is divided by, and how
/// that distance moves with each of `cells`.
struct FormulaEdge {
  FormulaTrouble beyond;  ///< what it would be there
  double distance;
  std::vector<double> gradient;
};

/// Of every such step that readings can move. Needs a figure at `values`.
[[nodiscard]] std::vector<FormulaEdge> formula_edges(const Formula& formula, std::span<const double> values);

/// The cells under a step, ascending.
[[nodiscard]] std::vector<std::size_t> cells_of(const FormulaNode& node);

/// How it moves with each of `cells`, in their order: exact derivatives. Needs a figure at `values`. Of a vector difference of nothing every direction is as steep; that
/// of the first vector is taken.
[[nodiscard]] std::vector<double> formula_gradient(const Formula& formula, std::span<const double> values);

/// Any expression with one value, as a formula; nothing if a reading lacks.
[[nodiscard]] std::optional<Formula> formula_of(const Expression& expression, const PartGrid& grid, const std::vector<bool>& entering);

/// The formulas of an expression that is one, over the cells that enter: one for each item of its outermost max or min. Items that lack a
/// reading are left out.
[[nodiscard]] std::vector<Formula> formulas_of(const Expression& expression, const PartGrid& grid, const std::vector<bool>& entering);

}  // namespace fettle
