#include "gauging/closing_zero.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "base/assertion.h"

namespace fettle {
namespace {

double covariance(const ClosingZero& closing, std::size_t k, std::size_t other) {
  std::map<std::size_t, double> first;
  for (const auto& step : closing.steps(k)) first[step.number] = step.coefficient;
  double sum = 0.0;
  for (const auto& step : closing.steps(other)) sum += step.coefficient * first[step.number];
  return sum * closing.step_uncertainty_mm() * closing.step_uncertainty_mm();
}

/// A step of height d at a moment that is as likely after any of the n readings, less the line d·k/n:
/// E[(1(T ≤ k) − k/n)(1(T ≤ k') − k'/n)] = min(k,k')/n − k·k'/n².
double knock(double d, std::size_t n, std::size_t k, std::size_t other) {
  const auto real = [](std::size_t whole) { return static_cast<double>(whole); };
  return d * d * (real(std::min(k, other)) / real(n) - real(k) * real(other) / (real(n) * real(n)));
}

double worst_difference(std::size_t n, double d) {
  const ClosingZero closing(d, n);
  double worst = 0.0;
  for (std::size_t k = 1; k <= n; ++k) {
    for (std::size_t other = 1; other <= n; ++other) {
      worst = std::max(worst, std::fabs(covariance(closing, k, other) - knock(d, n, k, other)));
    }
  }
  return worst;
}

TEST(ClosingZero, CoefficientsGiveTheKnockCovariance) {
  for (std::size_t n = 1; n <= 30; ++n) EXPECT_LT(worst_difference(n, -0.002), 4e-6 * 1e-13) << n;
}

TEST(ClosingZero, ExactForManyReadingsToo) {
  for (const std::size_t n : {64U, 65U, 200U}) EXPECT_LT(worst_difference(n, 1.0), 1e-13) << n;
}

TEST(ClosingZero, AReadingRestsOnFewSteps) {
  const ClosingZero closing(0.001, 5000);
  for (std::size_t k = 1; k <= 5000; ++k) EXPECT_LE(closing.steps(k).size(), 13U) << k;
  EXPECT_TRUE(closing.steps(5000).empty());
}

TEST(ClosingZero, FourReadingsByHand) {
  // d = 2 µm, n = 4: variances 4·(k/4 − k²/16) = .75, 1, .75, 0 µm²; between the first and the third 4·(1/4 − 3/16) =
  // .25.
  const ClosingZero closing(0.002, 4);
  EXPECT_NEAR(covariance(closing, 1, 1) * 1e6, 0.75, 1e-12);
  EXPECT_NEAR(covariance(closing, 2, 2) * 1e6, 1.0, 1e-12);
  EXPECT_NEAR(covariance(closing, 3, 3) * 1e6, 0.75, 1e-12);
  EXPECT_NEAR(covariance(closing, 4, 4) * 1e6, 0.0, 1e-12);
  EXPECT_NEAR(covariance(closing, 1, 3) * 1e6, 0.25, 1e-12);
}

TEST(ClosingZero, DriftIsALineFromNothingToTheWholeDifference) {
  const ClosingZero closing(-0.003, 6);
  EXPECT_DOUBLE_EQ(closing.drift_mm(1), -0.0005);
  EXPECT_DOUBLE_EQ(closing.drift_mm(4), -0.002);
  EXPECT_DOUBLE_EQ(closing.drift_mm(6), -0.003);
}

TEST(ClosingZero, UnorderedReadingsCarryTheRootMeanSquare) {
  // Half the readings nothing, half the whole 2 µm: √(4/2) = 1.41421 µm, whatever the sign.
  EXPECT_NEAR(ClosingZero::unordered_uncertainty_mm(0.002), 0.00141421, 5e-9);
  EXPECT_NEAR(ClosingZero::unordered_uncertainty_mm(-0.002), 0.00141421, 5e-9);
}

TEST(ClosingZero, RefusesAPlaceThatDoesNotExist) {
  EXPECT_THROW(ClosingZero(0.001, 0), InternalError);
  EXPECT_THROW((void)ClosingZero(0.001, 3).drift_mm(0), InternalError);
  EXPECT_THROW((void)ClosingZero(0.001, 3).steps(4), InternalError);
}

}  // namespace
}  // namespace fettle
