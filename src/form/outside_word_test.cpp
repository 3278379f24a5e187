#include "form/outside_word.h"

#include <gtest/gtest.h>

#include <vector>

#include "numeric/triangular.h"

namespace fettle {
namespace {

/// A group of one part with two cells, known to ± `sd`, both read once with noise 2, under one error shared with the other group.
struct Group {
  BlockPrior prior;
  ShapeRows rows;
};

Group group(double sd, double first, double second, double by_error) {
  Group out{{2, 0, {0.0, 0.0}, {}, {sd * sd, 0.5, 0.5, sd * sd}}, {}};
  out.rows.blocks = {{{0, 1}, {first, second}, {4.0, 0.0, 0.0, 4.0}, {by_error, by_error}}};
  out.rows.error_columns = 1;
  out.rows.named_sources = {0};
  return out;
}

std::vector<FittedNode> fit(const Group& group, const OutsideWord& heard) {
  ShapeRows rows = group.rows;
  hear(rows, heard);
  BlockGaussian model(rows.blocks, 1);
  return {{{}, 1.0, model.posterior(group.prior, BlockGaussian::Detail::estimate), 0}};
}

// Two groups told apart, each hearing what the other says of the error they share, against one covariance over all of it.
TEST(OutsideWord, TwoGroupsAgreeWithTheFullJointSolution) {
  const Group a = group(3.0, 9.0, 7.0, 5.0);
  const Group b = group(2.0, -4.0, -6.0, -3.0);  // a shaft: the same error makes it look less worn
  const OutsideWord of_a = say(fit(a, {}), a.rows, {});
  const OutsideWord of_b = say(fit(b, {}), b.rows, {});
  const auto nodes_a = fit(a, of_b);
  const auto nodes_b = fit(b, of_a);

  // By one covariance of all four readings: mean = K V^-1 y, left = K - K V^-1 K.
  const std::vector<double> cells = {9.0, 0.5, 0.0, 0.0, 0.5, 9.0, 0.0, 0.0, 0.0, 0.0, 4.0, 0.5, 0.0, 0.0, 0.5, 4.0};
  const std::vector<double> error = {5.0, 5.0, -3.0, -3.0};
  std::vector<double> readings = cells;
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t k = 0; k < 4; ++k) readings[i * 4 + k] += error[i] * error[k] + (i == k ? 4.0 : 0.0);
  }
  ASSERT_TRUE(factor_upper(readings, 4));
  std::vector<double> told = cells;  // U^-T K
  solve_transposed(readings, 4, told, 4);
  std::vector<double> y = {9.0, 7.0, -4.0, -6.0};
  solve_transposed(readings, 4, y, 1);
  const auto column = [&](std::size_t k) { return std::vector<double>{told[k], told[4 + k], told[8 + k], told[12 + k]}; };
  const auto mean = [&](std::size_t k) { return dot(column(k), y); };
  const auto left = [&](std::size_t i, std::size_t k) { return cells[i * 4 + k] - dot(column(i), column(k)); };
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_NEAR(nodes_a[0].posterior.blocks[0].mean[i], mean(i), 1e-10);
    EXPECT_NEAR(nodes_b[0].posterior.blocks[0].mean[i], mean(2 + i), 1e-10);
    EXPECT_NEAR(nodes_a[0].posterior.blocks[0].whole[i * 2 + i], left(i, i), 1e-10);
    EXPECT_NEAR(nodes_b[0].posterior.blocks[0].whole[i * 2 + i], left(2 + i, 2 + i), 1e-10);
  }
  // What the two groups share shows in the last common draw, which is the same one for both: covariance of cell 0 of a with cell 0 of b.
  const std::vector<double>& gain_a = nodes_a[0].posterior.blocks[0].gain;
  const std::vector<double>& gain_b = nodes_b[0].posterior.blocks[0].gain;
  EXPECT_NEAR(gain_a.back() * gain_b.back(), left(1, 3), 1e-10);
  // Left to itself a group knows less.
  EXPECT_GT(fit(a, {})[0].posterior.blocks[0].whole[0], left(0, 0) + 0.05);
}

// What is told is rounded, so that a change too small to matter changes nobody else; what is lost is a thousandth of the sd.
TEST(OutsideWord, WhatIsToldIsRoundedWithoutHarm) {
  const Group a = group(3.0, 9.0, 7.0, 5.0);
  const Group b = group(2.0, -4.0, -6.0, -3.0);
  const OutsideWord exact = say(fit(b, {}), b.rows, {});
  const OutsideWord told = rounded(exact);
  EXPECT_NE(told.pull, exact.pull);
  EXPECT_NEAR(told.pull[0], exact.pull[0], 1.0 / 256.0);
  const auto heard = fit(a, told);
  const auto as_said = fit(a, exact);
  for (std::size_t c = 0; c < 2; ++c) {
    EXPECT_NEAR(heard.front().posterior.blocks.front().mean[c], as_said.front().posterior.blocks.front().mean[c], 0.02);
  }
  const Group moved = group(2.0, -4.0, -6.0001, -3.0);
  EXPECT_EQ(rounded(say(fit(moved, {}), moved.rows, {})).pull, told.pull);
  OutsideWord nothing = together({}, 1);
  nothing.information[0] = 0.003;
  nothing.pull[0] = -0.003;
  EXPECT_EQ(rounded(nothing).information, together({}, 1).information);
  EXPECT_EQ(rounded(nothing).pull, together({}, 1).pull);
}

}  // namespace
}  // namespace fettle
