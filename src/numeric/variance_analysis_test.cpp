#include "numeric/variance_analysis.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/assertion.h"
#include "numeric/summary.h"

namespace fettle {
namespace {

// By hand: groups 1 2 3 and 5 7: means 2 and 6, grand 3.6; within 2 + 2, between 3·2.56 + 2·5.76.
TEST(VarianceAnalysis, OneWayByHandWithUnequalGroups) {
  const std::vector<std::vector<double>> groups = {{1.0, 2.0, 3.0}, {5.0, 7.0}};
  const OneWayVariance found = one_way_variance(groups);
  EXPECT_NEAR(found.between.sum_of_squares, 19.2, 1e-13);
  EXPECT_NEAR(found.within.sum_of_squares, 4.0, 1e-13);
  EXPECT_EQ(found.between.degrees_of_freedom, 1.0);
  EXPECT_EQ(found.within.degrees_of_freedom, 3.0);
  EXPECT_NEAR(found.usual_count, 5.0 - 13.0 / 5.0, 1e-14);
  EXPECT_THROW((void)one_way_variance(std::vector<std::vector<double>>{{1.0}, {2.0}}), InternalError);
  EXPECT_THROW((void)one_way_variance(std::vector<std::vector<double>>{{1.0, 2.0}}), InternalError);
}

CrossedValues crossed_by_rule() {
  CrossedValues out{3, 2, 2, {}};
  const std::vector<double> row = {0.0, 3.0, -3.0};
  for (std::size_t r = 0; r < 3; ++r) {
    for (std::size_t c = 0; c < 2; ++c) {
      const double cell = 100.0 + row[r] + (c == 0 ? 1.0 : -1.0) + (r == 1 ? (c == 0 ? 0.5 : -0.5) : 0.0);
      out.values.push_back(cell + 0.25);
      out.values.push_back(cell - 0.25);
    }
  }
  return out;
}

// By hand: rows 4·(0 + 9 + 9), repeats 12·0.0625; columns and interaction from ±1, ±1.5, ±1: mean 7/6.
TEST(VarianceAnalysis, CrossedByHand) {
  const CrossedVariance found = crossed_variance(crossed_by_rule());
  EXPECT_NEAR(found.rows.sum_of_squares, 72.0, 1e-12);
  EXPECT_NEAR(found.columns.sum_of_squares, 12.0 * 49.0 / 36.0, 1e-12);
  EXPECT_NEAR(found.interaction.sum_of_squares, 4.0 * (1.0 / 36.0 + 4.0 / 36.0 + 1.0 / 36.0), 1e-12);
  EXPECT_NEAR(found.within.sum_of_squares, 0.75, 1e-12);
  EXPECT_EQ(found.rows.degrees_of_freedom, 2.0);
  EXPECT_EQ(found.columns.degrees_of_freedom, 1.0);
  EXPECT_EQ(found.interaction.degrees_of_freedom, 2.0);
  EXPECT_EQ(found.within.degrees_of_freedom, 6.0);
}

// The four parts are the whole, whatever the values.
TEST(VarianceAnalysis, ThePartsAreTheWhole) {
  CrossedValues from = crossed_by_rule();
  for (std::size_t i = 0; i < from.values.size(); ++i) from.values[i] += 0.01 * static_cast<double>((i * 7) % 5);
  const CrossedVariance found = crossed_variance(from);
  const Summary all = summarize(from.values);
  const double parts = found.rows.sum_of_squares + found.columns.sum_of_squares + found.interaction.sum_of_squares + found.within.sum_of_squares;
  EXPECT_NEAR(parts, all.standard_deviation * all.standard_deviation * 11.0, 1e-10);
  from.values.pop_back();
  EXPECT_THROW((void)crossed_variance(from), InternalError);
}

}  // namespace
}  // namespace fettle
