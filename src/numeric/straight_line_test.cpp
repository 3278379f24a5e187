#include "numeric/straight_line.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/assertion.h"

namespace fettle {
namespace {

TEST(StraightLine, GoesThroughPointsOfALine) {
  const std::vector<double> x = {1.0, 2.0, 4.0, 8.0};
  std::vector<double> y;
  for (const double each : x) y.push_back(3.0 - 0.5 * (each - 2.0));
  const StraightLine line = fit_straight_line(x, y, 2.0);
  EXPECT_DOUBLE_EQ(line.intercept, 3.0);
  EXPECT_DOUBLE_EQ(line.slope, -0.5);
  EXPECT_NEAR(line.residual_deviation, 0.0, 1e-15);
  EXPECT_EQ(line.degrees_of_freedom, 2.0);
}

// By hand: x -1 0 1, y 0 0 3: slope 1.5, mean 1, residuals 0.5 -1 0.5, one degree, s² = 1.5, u² of the mean 0.5, of the slope 0.75.
TEST(StraightLine, UncertaintiesByHand) {
  const std::vector<double> x = {-1.0, 0.0, 1.0};
  const std::vector<double> y = {0.0, 0.0, 3.0};
  const StraightLine line = fit_straight_line(x, y, 0.0);
  EXPECT_DOUBLE_EQ(line.residual_deviation, std::sqrt(1.5));
  EXPECT_DOUBLE_EQ(line.intercept_uncertainty, std::sqrt(0.5));
  EXPECT_DOUBLE_EQ(line.slope_uncertainty, std::sqrt(0.75));
  EXPECT_NEAR(line.correlation, 0.0, 1e-15);
  EXPECT_DOUBLE_EQ(line.at(2.0).value, 4.0);
  EXPECT_DOUBLE_EQ(line.at(2.0).standard_uncertainty, std::sqrt(0.5 + 4.0 * 0.75));
}

// Where the intercept is told changes no prediction.
TEST(StraightLine, TheOriginIsOnlyWhereTheInterceptIsTold) {
  const std::vector<double> x = {84.0, 84.5, 85.1, 85.9};
  const std::vector<double> y = {0.001, 0.004, 0.003, 0.007};
  const StraightLine near = fit_straight_line(x, y, 85.0);
  const StraightLine far = fit_straight_line(x, y, 0.0);
  EXPECT_NEAR(near.at(84.7).value, far.at(84.7).value, 1e-14);
  EXPECT_NEAR(near.at(84.7).standard_uncertainty, far.at(84.7).standard_uncertainty, 1e-10);
  EXPECT_LT(far.correlation, -0.9999);
  EXPECT_THROW((void)fit_straight_line(std::vector<double>{1.0, 1.0, 1.0}, std::vector<double>{1.0, 2.0, 3.0}, 0.0), InternalError);
}

}  // namespace
}  // namespace fettle
