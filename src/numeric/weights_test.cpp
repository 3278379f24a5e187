#include "numeric/weights.h"

#include <gtest/gtest.h>

#include <cmath>

#include "base/assertion.h"
#include "numeric/xoshiro.h"

namespace fettle {
namespace {

void expect_weights(const WeightsReport& report, const std::vector<double>& expected) {
  ASSERT_EQ(report.weights.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) EXPECT_NEAR(report.weights[i], expected[i], 1e-12) << i;
}

// Hand calculation: variances 1 and 4 give 4/5 and 1/5, variance 0.8. With covariance 0.5 between variances 1 and 2:
// V^-1 1 ~ (2 - 0.5, 1 - 0.5), so 3/4 and 1/4; variance (1 * 2 - 0.25) / (1 + 2 - 1) = 0.875.
TEST(Weights, AgreeWithHandCalculation) {
  const WeightsReport apart = best_linear_unbiased_weights({1.0, 0.0, 0.0, 4.0}, 2);
  expect_weights(apart, {0.8, 0.2});
  EXPECT_NEAR(apart.variance, 0.8, 1e-14);
  EXPECT_NEAR(apart.condition.value(), 4.0, 1e-12);
  EXPECT_TRUE(apart.usable && apart.optimal);
  EXPECT_EQ(apart.basis, WeightsBasis::best);
  const WeightsReport shared = best_linear_unbiased_weights({1.0, 0.5, 0.5, 2.0}, 2);
  expect_weights(shared, {0.75, 0.25});
  EXPECT_NEAR(shared.variance, 0.875, 1e-14);
  expect_weights(best_linear_unbiased_weights({3.0}, 1), {1.0});
}

TEST(Weights, SingularCovariancesAreAnsweredWithAReason) {
  const WeightsReport none = best_linear_unbiased_weights(std::vector<double>(9, 0.0), 3);
  expect_weights(none, {1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0});
  EXPECT_EQ(none.basis, WeightsBasis::equal_without_error);
  EXPECT_TRUE(none.usable);
  EXPECT_FALSE(none.optimal);
  // One error common to all: no weighting is better, the most even one is taken.
  const WeightsReport common = best_linear_unbiased_weights(std::vector<double>(9, 25e-6), 3);
  expect_weights(common, {1.0 / 3.0, 1.0 / 3.0, 1.0 / 3.0});
  EXPECT_EQ(common.basis, WeightsBasis::best_of_several);
  EXPECT_FALSE(common.condition.has_value());
  EXPECT_NEAR(common.variance, 25e-6, 1e-18);
  // Two values without error leave nothing to the third.
  const WeightsReport exact = best_linear_unbiased_weights({0, 0, 0, 0, 1.0, 0, 0, 0, 0}, 3);
  expect_weights(exact, {0.5, 0.0, 0.5});
  EXPECT_EQ(exact.variance, 0.0);
}

TEST(Weights, WhatIsNoCovarianceIsNotUsable) {
  for (const std::vector<double>& matrix :
       {std::vector<double>{1.0, 0.5, 0.0, 1.0}, {1.0, 2.0, 2.0, 1.0}, {-1.0, 0.0, 0.0, -2.0}}) {
    const WeightsReport report = best_linear_unbiased_weights(matrix, 2);
    EXPECT_FALSE(report.usable);
    EXPECT_EQ(report.basis, WeightsBasis::equal_not_covariance);
    expect_weights(report, {0.5, 0.5});
  }
  EXPECT_THROW((void)best_linear_unbiased_weights({1.0, 2.0}, 2), InternalError);
  EXPECT_THROW((void)best_linear_unbiased_weights({std::nan("")}, 1), InternalError);
  EXPECT_THROW((void)best_linear_unbiased_weights({}, 0), InternalError);
}

// V = A A' of random A: moving any weight onto another never lessens the variance, and units do not matter.
TEST(Weights, NoOtherWeightingIsBetter) {
  Xoshiro256 bits = Xoshiro256::stream(8, 1);
  for (const std::size_t n : {std::size_t{2}, std::size_t{5}, std::size_t{24}}) {
    std::vector<double> a(n * n);
    for (double& entry : a) entry = uniform_of_bits(bits.next()) - 0.3;
    std::vector<double> v(n * n, 0.0);
    std::vector<double> in_inches(n * n);
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) {
        for (std::size_t k = 0; k < n; ++k) v[i * n + j] += a[i * n + k] * a[j * n + k];
        in_inches[i * n + j] = v[i * n + j] / (25.4 * 25.4);
      }
    }
    const WeightsReport report = best_linear_unbiased_weights(v, n);
    ASSERT_EQ(report.basis, WeightsBasis::best);
    double total = 0.0;
    for (const double weight : report.weights) total += weight;
    EXPECT_NEAR(total, 1.0, 1e-12);
    const auto variance = [&](const std::vector<double>& w) {
      double sum = 0.0;
      for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) sum += w[i] * v[i * n + j] * w[j];
      }
      return sum;
    };
    EXPECT_NEAR(variance(report.weights), report.variance, 1e-12 * report.condition.value());
    for (std::size_t i = 0; i < n; ++i) {
      std::vector<double> moved = report.weights;
      moved[i] += 0.01;
      moved[(i + 1) % n] -= 0.01;
      EXPECT_GT(variance(moved), report.variance);
    }
    const WeightsReport inches = best_linear_unbiased_weights(in_inches, n);
    for (std::size_t i = 0; i < n; ++i) {
      EXPECT_NEAR(inches.weights[i], report.weights[i], 1e-13 * report.condition.value() * 10.0);
    }
  }
}

}  // namespace
}  // namespace fettle
