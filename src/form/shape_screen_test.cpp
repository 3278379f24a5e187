#include "form/shape_screen.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fettle {
namespace {

constexpr std::size_t kScreenStations = 3;

ShapeKnowledge bores_known() {
  return {WearPattern::from_first, {0.0, 0.5, 1.0}, {true, true, true}, {0.0, 90.0}, false, 0.0, 20.0, SizeHistory::stated};
}

/// Three bores of three heights and two axes, under one setting whose error they share.
ShapeRows bores_read(double off_um) {
  const std::vector<std::vector<double>> read = {{52, 44, 31, 27, 15, 13}, {61, 50, 36, 31, 18, 14}, {47, 41, 27, 25, 13, 12}};
  ShapeRows out{{}, {}, 1, {}, 5.0, 0.0};
  for (const auto& values : read) {
    BlockRows block{{}, values, std::vector<double>(36, 0.0), std::vector<double>(6, 5.0)};
    std::vector<ShapeRow> rows;
    for (std::size_t c = 0; c < 2 * kScreenStations; ++c) {
      block.cell.push_back(c);
      block.noise[c * 6 + c] = 18.0;
      rows.push_back({out.blocks.size(), c, "s", {"r"}, {}});
    }
    out.blocks.push_back(block);
    out.rows.push_back(rows);
  }
  out.blocks[1].value[2] += off_um;
  return out;
}

double density_of(const Forecast& forecast, double value) {
  double out = 0.0;
  double whole = 0.0;
  double most = forecast.front().log_weight;
  for (const ForecastPart& each : forecast) most = std::max(most, each.log_weight);
  for (const ForecastPart& each : forecast) {
    const double weight = std::exp(each.log_weight - most);
    const double z = (value - each.mean) / each.sd;
    out += weight * std::exp(-0.5 * z * z) / each.sd / std::sqrt(2.0 * std::acos(-1.0));
    whole += weight;
  }
  return out / whole;
}

/// p(all) = p(row | rest) p(rest), so the density of a row given the rest is a ratio of two evidences of whole fits, one of them with the row
/// moved. Where the profile is not learned from the readings themselves this holds but for nodes that were dropped.
TEST(ShapeScreen, ShiftsCostWhatWholeFitsSay) {
  const ShapeRows as_read = bores_read(0.0);
  ShapeKnowledge even = bores_known();
  even.pattern = WearPattern::even;
  const ShapeScreen screen(even, as_read, ShapeFreedom::usual, {});
  for (const double by : {-20.0, -8.0, 8.0, 20.0}) {
    ShapeRows moved = as_read;
    moved.blocks[1].value[2] += by;
    const double whole = ShapeScreen(even, moved, ShapeFreedom::usual, {}).log_evidence() - screen.log_evidence();
    EXPECT_NEAR(screen.log_shift_ratio(1, {{2, by}}), whole, 0.35 + 0.1 * std::abs(whole)) << by;
    const Forecast forecast = screen.forecast({1, 2});
    const double value = as_read.blocks[1].value[2];
    EXPECT_NEAR(std::log(density_of(forecast, value + by) / density_of(forecast, value)), screen.log_shift_ratio(1, {{2, by}}), 1e-6) << by;
  }
}

/// Taken for a mistake or not, an honest reading is forecast alike; and the noise that is taken off gives back the same cost of a shift.
TEST(ShapeScreen, TheNoiseOfAMistakeIsTakenOffAgain) {
  const ShapeRows as_read = bores_read(0.0);
  const ShapeScreen honest(bores_known(), as_read, ShapeFreedom::usual, {});
  const ShapeScreen worth_little_there(bores_known(), as_read, ShapeFreedom::usual, {{1, 2}});
  EXPECT_NEAR(worth_little_there.log_shift_ratio(1, {{2, 15.0}}), honest.log_shift_ratio(1, {{2, 15.0}}), 0.3);
  EXPECT_NEAR(worth_little_there.log_shift_ratio(1, {{2, 15.0}, {3, -10.0}}), honest.log_shift_ratio(1, {{2, 15.0}, {3, -10.0}}), 0.4);
  const double expected = 36.0;
  EXPECT_GT(density_of(worth_little_there.forecast({1, 2}), expected), density_of(worth_little_there.forecast({1, 2}), expected + 25.0) * 10.0);
}

/// A reading that is far off does not draw its own forecast after it.
TEST(ShapeScreen, WhatIsWorthLittleDoesNotForetellItself) {
  for (const double off : {40.0, 500.0}) {
    const ShapeScreen screen(bores_known(), bores_read(off), ShapeFreedom::usual, {{1, 2}});
    double mean = 0.0;
    double whole = 0.0;
    const Forecast forecast = screen.forecast({1, 2});
    double most = forecast.front().log_weight;
    for (const ForecastPart& each : forecast) most = std::max(most, each.log_weight);
    for (const ForecastPart& each : forecast) {
      mean += std::exp(each.log_weight - most) * each.mean;
      whole += std::exp(each.log_weight - most);
    }
    EXPECT_NEAR(mean / whole, 36.0, 8.0) << off;
  }
}

}  // namespace
}  // namespace fettle
