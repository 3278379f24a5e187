#include "advice/mistakes.h"

#include <gtest/gtest.h>

#include <cmath>

namespace fettle {
namespace {

const Forecast kTwoNormals = {{std::log(0.7), 10.0, 4.0}, {std::log(0.3), 16.0, 7.0}};

SupposedMistake supposed(const char* id, std::optional<double> meant, double scale, int toward) {
  const MistakeKind* kind = mistake_kind(id);
  return {kind, kind->rate, meant, scale, toward};
}

double normal_at(double x, double mean, double sd) {
  const double z = (x - mean) / sd;
  return std::exp(-0.5 * z * z) / (sd * std::sqrt(2.0 * std::acos(-1.0)));
}

/// ∫ p(honest reading = value − e) p(e) de by small steps.
double by_integration(double value, double scale, int toward) {
  double sum = 0.0;
  constexpr double kStep = 0.01;
  for (double e = -400.0 + 0.5 * kStep; e < 400.0; e += kStep) {
    if (toward != 0 && e * toward < 0.0) continue;
    const double honest = 0.7 * normal_at(value - e, 10.0, 4.0) + 0.3 * normal_at(value - e, 16.0, 7.0);
    sum += kStep * honest * normal_at(e, 0.0, scale) * (toward == 0 ? 1.0 : 2.0);
  }
  return sum;
}

TEST(MistakesOfHands, SpreadsHaveTheDensityThatIntegrationGives) {
  for (const double value : {-60.0, -5.0, 12.0, 30.0, 90.0}) {
    for (const int toward : {-1, 0, 1}) {
      const double expected = by_integration(value, 40.0, toward);
      if (expected < 1e-12) continue;
      EXPECT_NEAR(std::exp(log_density_of(supposed("anything-else", {}, 40.0, toward), kTwoNormals, value)) / expected, 1.0, 2e-3) << value << " " << toward;
    }
  }
}

TEST(MistakesOfHands, WhatWasMeantHasTheForecastsDensity) {
  const double expected = 0.7 * normal_at(11.0, 10.0, 4.0) + 0.3 * normal_at(11.0, 16.0, 7.0);
  EXPECT_NEAR(std::exp(log_density_of(supposed("thimble-turn", 11.0, 0.0, 0), kTwoNormals, 511.0)), expected, 1e-12);
}

/// By Bayes' rule, by hand.
TEST(MistakesOfHands, TheChanceIsThatOfBayes) {
  const std::vector<SupposedMistake> mistakes = {supposed("thimble-turn", 12.0, 0.0, 0), supposed("anything-else", {}, 40.0, 0)};
  const double value = 40.0;
  const double honest = 0.7 * normal_at(value, 10.0, 4.0) + 0.3 * normal_at(value, 16.0, 7.0);
  const double turn = mistakes[0].prior * (0.7 * normal_at(12.0, 10.0, 4.0) + 0.3 * normal_at(12.0, 16.0, 7.0));
  const double other = mistakes[1].prior * by_integration(value, 40.0, 0);
  const double mistaken = turn + other;
  const WeighedReading weighed = weigh_reading(kTwoNormals, value, mistakes);
  EXPECT_NEAR(weighed.chance(), mistaken / (mistaken + (1.0 - mistakes[0].prior - mistakes[1].prior) * honest), 1e-4);
  ASSERT_EQ(weighed.by_kind.size(), 2U);
  EXPECT_EQ(weighed.by_kind.front().first->id, turn > other ? "thimble-turn" : "anything-else");
  EXPECT_NEAR(weighed.by_kind.front().second, std::max(turn, other) / mistaken, 1e-3);
  EXPECT_NEAR(weighed.expected, 0.7 * 10.0 + 0.3 * 16.0, 1e-9);
}

TEST(MistakesOfHands, WhatFitsIsLeftAloneAndWhatIsImpossibleIsCertain) {
  const std::vector<SupposedMistake> mistakes = {supposed("anything-else", {}, 40.0, 0)};
  EXPECT_LT(weigh_reading(kTwoNormals, 11.0, mistakes).chance(), 0.01);
  EXPECT_GT(weigh_reading(kTwoNormals, 5000.0, {supposed("thimble-turn", 12.0, 0.0, 0)}).chance(), 0.999);
}

}  // namespace
}  // namespace fettle
