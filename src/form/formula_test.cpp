#include "form/formula.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "numeric/draws.h"

namespace fettle {
namespace {

FormulaNode cell(std::size_t at) { return {FormulaStep::cell, at, 0.0, {}}; }
FormulaNode number(double value) { return {FormulaStep::constant, 0, value, {}}; }
FormulaNode made(FormulaStep step, std::vector<FormulaNode> parts) { return {step, 0, 0.0, std::move(parts)}; }

Formula formula(FormulaNode root, std::size_t cells) {
  Formula out{std::move(root), std::vector<std::size_t>(cells), std::vector<double>(cells, 1.0), {}};
  std::iota(out.cells.begin(), out.cells.end(), 0U);
  return out;
}

// Every step against differences of its own values.
TEST(Formula, GradientsAgreeWithDifferences) {
  const std::vector<double> at = {0.08, 20.0, 0.05, 130.0};
  const FormulaNode a = cell(0);
  const FormulaNode b = cell(2);
  const std::vector<FormulaNode> roots = {
      made(FormulaStep::sum, {a, b}),
      made(FormulaStep::difference, {a, b}),
      made(FormulaStep::product, {a, b}),
      made(FormulaStep::quotient, {a, b}),
      made(FormulaStep::greatest, {a, b}),
      made(FormulaStep::least, {a, b}),
      made(FormulaStep::product, {number(3.0), made(FormulaStep::quotient, {made(FormulaStep::product, {a, a}), b})}),
      made(FormulaStep::cosine, {cell(1)}),
      made(FormulaStep::arccosine, {made(FormulaStep::quotient, {b, a})}),
      made(FormulaStep::vector_difference, {a, cell(1), b, cell(3)}),
      made(FormulaStep::neighbour_rule, {a, cell(1), b, cell(3)}),
  };
  for (std::size_t r = 0; r < roots.size(); ++r) {
    const Formula each = formula(roots[r], 4);
    const std::vector<double> gradient = formula_gradient(each, at);
    for (std::size_t k = 0; k < 4; ++k) {
      const double step = 1e-6 * at[k];
      std::vector<double> up = at;
      std::vector<double> down = at;
      up[k] += step;
      down[k] -= step;
      EXPECT_NEAR(gradient[k], (formula_value(each, up).value() - formula_value(each, down).value()) / (2.0 * step), 1e-6) << r << " " << k;
    }
  }
}

TEST(Formula, CosinesAreOfDegrees) {
  const auto value = [](FormulaStep step, double of) { return formula_value(formula(made(step, {cell(0)}), 1), std::vector<double>{of}); };
  EXPECT_NEAR(value(FormulaStep::cosine, 60.0).value(), 0.5, 1e-15);
  EXPECT_NEAR(value(FormulaStep::arccosine, 0.5).value(), 60.0, 1e-12);
  EXPECT_NEAR(value(FormulaStep::arccosine, -1.0).value(), 180.0, 1e-12);
  EXPECT_EQ(value(FormulaStep::arccosine, 1.0).value(), 0.0);
}

// A cosine beyond 1 was once taken for 1, and a limit held against the dead centre that came of it.
TEST(Formula, WhatDoesNotExistHasNoFigure) {
  using Sort = FormulaTrouble::Sort;
  const FormulaNode quotient = made(FormulaStep::quotient, {cell(0), cell(1)});
  const auto sort = [](const FormulaNode& root, std::vector<double> at) -> std::optional<Sort> {
    const Formula of = formula(root, at.size());
    const auto trouble = formula_trouble(of, at);
    EXPECT_EQ(trouble.has_value(), !formula_value(of, at).has_value());
    return trouble ? std::optional(trouble->sort) : std::nullopt;
  };
  const FormulaNode angle = made(FormulaStep::arccosine, {quotient});
  EXPECT_EQ(sort(angle, {1.0, 1.0}), std::nullopt);
  EXPECT_EQ(sort(angle, {1.0 + 1e-15, 1.0}), std::nullopt);  // rounding of doubles, the dead centre
  EXPECT_EQ(sort(angle, {1.0 + 1e-9, 1.0}), Sort::no_triangle);
  EXPECT_EQ(sort(angle, {1.25, 1.0}), Sort::no_triangle);
  EXPECT_EQ(sort(angle, {-1.25, 1.0}), Sort::no_triangle);
  EXPECT_EQ(sort(angle, {1.0, 0.0}), Sort::divided_by_nothing);  // the innermost is named
  EXPECT_EQ(sort(quotient, {0.0, 0.0}), Sort::divided_by_nothing);
  EXPECT_EQ(sort(quotient, {1.0, 1e-12}), Sort::too_large);
  EXPECT_EQ(sort(made(FormulaStep::product, {cell(0), cell(1)}), {1e200, 1e200}), Sort::too_large);
  EXPECT_EQ(sort(made(FormulaStep::cosine, {cell(0)}), {1e9}), Sort::too_large);
  EXPECT_EQ(sort(made(FormulaStep::vector_difference, {number(1.0), cell(0), number(2.0), number(0.0)}), {1e9}), Sort::too_large);
  // One part of a greatest without a figure may have been the greatest.
  EXPECT_EQ(sort(made(FormulaStep::greatest, {number(5.0), quotient}), {1.0, 0.0}), Sort::divided_by_nothing);
  EXPECT_EQ(sort(made(FormulaStep::sum, {number(5.0), quotient}), {1.0, 0.0}), Sort::divided_by_nothing);
}

TEST(Formula, EdgesSayHowFarIsLeft) {
  const Formula of = formula(made(FormulaStep::arccosine, {made(FormulaStep::quotient, {cell(0), cell(1)})}), 2);
  const auto edges = formula_edges(of, std::vector<double>{-3.0, 4.0});
  ASSERT_EQ(edges.size(), 2U);
  EXPECT_EQ(edges[0].beyond.sort, FormulaTrouble::Sort::divided_by_nothing);
  EXPECT_EQ(edges[0].distance, 4.0);
  EXPECT_EQ(edges[0].gradient, (std::vector<double>{0.0, 1.0}));
  EXPECT_EQ(edges[1].beyond.sort, FormulaTrouble::Sort::no_triangle);
  EXPECT_EQ(edges[1].distance, 0.25);  // 1 - |-3/4|
  EXPECT_EQ(edges[1].gradient, (std::vector<double>{0.25, 3.0 / 16.0}));  // a less negative numerator, a larger divisor: further off
  // What no reading moves has no edge.
  EXPECT_TRUE(formula_edges(formula(made(FormulaStep::quotient, {cell(0), number(2.0)}), 1), std::vector<double>{1.0}).empty());
}

TEST(Formula, VectorsAndTheRuleKnowOnlyTheAngleBetween) {
  const auto value = [](FormulaStep step, double a, double at, double b, double bt) {
    return formula_value(formula(made(step, {cell(0), cell(1), cell(2), cell(3)}), 4), std::vector<double>{a, at, b, bt}).value();
  };
  EXPECT_NEAR(value(FormulaStep::vector_difference, 3.0, 350.0, 4.0, 80.0), 5.0, 1e-12);
  EXPECT_NEAR(value(FormulaStep::vector_difference, 3.0, 10.0, 3.0, 370.0), 0.0, 1e-7);
  EXPECT_EQ(value(FormulaStep::neighbour_rule, 3.0, 350.0, 1.0, 30.0), 2.0);   // 40° apart: the same side
  EXPECT_EQ(value(FormulaStep::neighbour_rule, 3.0, 350.0, 1.0, 130.0), 4.0);  // 140°: opposite
  EXPECT_EQ(value(FormulaStep::neighbour_rule, 3.0, 0.0, 1.0, 90.0), 3.0);
  // Nothing left between equal vectors: the steepness is still finite.
  const Formula none = formula(made(FormulaStep::vector_difference, {cell(0), cell(1), cell(2), cell(3)}), 4);
  for (const double each : formula_gradient(none, std::vector<double>{2.0, 30.0, 2.0, 30.0})) EXPECT_TRUE(std::isfinite(each));
}

// JCGM 101:2008, 9.3 (inputs as published; results from memory, recomputed by quadrature): a weight in air. The first order of the law of
// propagation gives 0.0539 mg, the distributions 0.0755 mg: what a linearised formula leaves out where its second derivatives count.
TEST(Formula, AWeightInAir) {
  const FormulaNode sum = made(FormulaStep::sum, {cell(0), cell(1)});
  const FormulaNode volume = made(FormulaStep::difference, {made(FormulaStep::quotient, {number(1.0), cell(3)}),
                                                            made(FormulaStep::quotient, {number(1.0), cell(4)})});
  const FormulaNode buoyancy = made(FormulaStep::product, {made(FormulaStep::difference, {cell(2), number(1.2)}), volume});
  const Formula weight = formula(
      made(FormulaStep::difference, {made(FormulaStep::product, {sum, made(FormulaStep::sum, {number(1.0), buoyancy})}), number(100000.0)}), 5);
  const std::vector<double> at = {100000.0, 1.234, 1.20, 8000.0, 8000.0};
  const std::vector<double> u = {0.050, 0.020, 0.10 / std::sqrt(3.0), 1000.0 / std::sqrt(3.0), 50.0 / std::sqrt(3.0)};
  EXPECT_NEAR(formula_value(weight, at).value(), 1.2340, 1e-9);
  const std::vector<double> gradient = formula_gradient(weight, at);
  double variance = 0.0;
  for (std::size_t k = 0; k < 5; ++k) variance += gradient[k] * gradient[k] * u[k] * u[k];
  EXPECT_NEAR(std::sqrt(variance), 0.05385165, 1e-8);

  constexpr std::size_t kDraws = 200'000;
  Generator generator(9, 3);
  std::vector<std::vector<double>> errors(5, std::vector<double>(kDraws));
  for (std::size_t k = 0; k < 5; ++k) draw(generator, k < 2 ? DrawShape::normal : DrawShape::rectangular, u[k], std::nullopt, errors[k]);
  std::vector<double> values;
  double mean = 0.0;
  double square = 0.0;
  for (std::size_t n = 0; n < kDraws; ++n) {
    std::vector<double> here = at;
    for (std::size_t k = 0; k < 5; ++k) here[k] += errors[k][n];
    values.push_back(formula_value(weight, here).value());
    mean += values.back() / kDraws;
  }
  for (const double each : values) square += (each - mean) * (each - mean) / (kDraws - 1);
  std::sort(values.begin(), values.end());
  EXPECT_NEAR(mean, 1.2340, 0.0007);
  EXPECT_NEAR(std::sqrt(square), 0.07547974, 0.0007);
  EXPECT_NEAR(values[kDraws / 40], 1.0844333, 0.0025);
  EXPECT_NEAR(values[kDraws - kDraws / 40], 1.38356678, 0.0025);
}

}  // namespace
}  // namespace fettle
