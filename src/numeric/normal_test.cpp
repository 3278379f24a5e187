#include "numeric/normal.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/assertion.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

double relative(double value, double exact) { return std::fabs(value / exact - 1.0); }

struct Pair {
  double at;
  double exact;
};

// erfc(-z / sqrt 2) / 2 with 50 digits (arbitrary-precision arithmetic), rounded to 20.
TEST(Normal, TailsAgreeWithExactDigits) {
  constexpr Pair kPairs[] = {
      {-37.0, 5.7255712225245768227e-300}, {-20.0, 2.7536241186062336951e-89}, {-8.0, 6.2209605742717841235e-16},
      {-5.0, 2.8665157187919391167e-7},    {-3.0, 0.0013498980316300945267},   {-1.0, 0.15865525393145705141},
      {-0.5, 0.30853753872598689636},      {0.25, 0.59870632568292372424},     {2.0, 0.9772498680518207928}};
  for (const Pair& pair : kPairs) {
    EXPECT_LT(relative(normal_lower(pair.at), pair.exact), 2e-15) << pair.at;
    EXPECT_EQ(normal_upper(-pair.at), normal_lower(pair.at)) << pair.at;
  }
}

TEST(Normal, TailsAgreeWithTheWiderType) {
  double worst = 0.0;
  double against_system = 0.0;
  for (int i = -37'000; i <= 37'000; ++i) {
    const double z = i * 1e-3;
    const long double wide = z;
    worst = std::fmax(worst, relative(normal_lower(z), static_cast<double>(normal_lower(wide))));
    const long double system = std::erfc(-wide / std::sqrt(2.0L)) / 2;
    against_system = std::fmax(against_system, relative(normal_lower(z), static_cast<double>(system)));
  }
  EXPECT_LT(worst, 2e-15);
  EXPECT_LT(against_system, 2e-15);
}

TEST(Normal, DensityAgreesWithTheWiderType) {
  for (int i = -3700; i <= 3700; ++i) {
    const double z = i * 1e-2;
    const long double wide = z;
    const long double exact = std::exp(-wide * wide / 2) / std::sqrt(2 * 3.14159265358979323846L);
    EXPECT_LT(relative(normal_density(z), static_cast<double>(exact)), 1e-15) << z;
    EXPECT_LT(relative(normal_density(z), static_cast<double>(normal_density(wide))), 1e-15) << z;
  }
  EXPECT_EQ(normal_density(40.0), 0.0);
  EXPECT_EQ(normal_density(-std::numeric_limits<double>::infinity()), 0.0);
}

// Zeroes of the distribution function with 50 digits for the decimal probability; a probability that is no double moves
// the quantile by less than the tolerance as long as it is below 0.5.
TEST(Normal, QuantileAgreesWithExactDigits) {
  constexpr Pair kPairs[] = {
      {1e-300, -37.047096299361199237}, {1e-100, -21.273453560965324294}, {1e-20, -9.2623400897984075796},
      {1e-10, -6.3613409024040561991},  {1e-5, -4.2648907939228246102},   {0.001, -3.0902323061678135354},
      {0.025, -1.9599639845400542118},  {0.075, -1.4395314709384559349},  {0.25, -0.6744897501960817432},
      {0.45, -0.12566134685507400616},  {0.75, 0.6744897501960817432}};
  for (const Pair& pair : kPairs) EXPECT_LT(relative(normal_quantile(pair.at), pair.exact), 1e-15) << pair.at;
  EXPECT_EQ(normal_quantile(0.5), 0.0);
}

TEST(Normal, QuantileAgreesWithTheWiderType) {
  double worst = 0.0;
  for (int i = 1; i < 20'000; ++i) {
    for (const double p : {i / 20'000.0, std::exp(-i * 0.0345)}) {
      if (p == 0.5) continue;
      // Two more Newton steps in the wider type, so that its answer rests on the tails alone.
      long double z = normal_quantile(static_cast<long double>(p));
      for (int k = 0; k < 2; ++k) z -= (normal_lower(z) - static_cast<long double>(p)) / normal_density(z);
      worst = std::fmax(worst, relative(normal_quantile(p), static_cast<double>(z)));
    }
  }
  EXPECT_LT(worst, 1e-15);
}

// In the wider type the approximation alone misses by about 1e-16; only the Newton step brings it onto our own tails.
TEST(Normal, QuantileUndoesTheTailsInTheWiderType) {
  double worst = 0.0;
  for (int i = 1; i < 2000; ++i) {
    for (const long double p : {i / 4001.0L, std::exp(-i * 0.3L)}) {
      const long double left = normal_lower(normal_quantile(p)) / p - 1;
      // What the last digit of z makes in the tail: z times the density over the probability is below z^2 + 1.
      const long double z = normal_quantile(p);
      worst = std::fmax(worst, static_cast<double>(std::fabs(left) / (1 + z * z)));
    }
  }
  EXPECT_LT(worst, 1e-18);
}

// Differences of erfc with 50 digits, rounded to 20.
TEST(Normal, IntervalsKeepTheirDigits) {
  struct Interval {
    double low, high, exact;
  };
  constexpr Interval kIntervals[] = {{-0.05, 0.05, 0.039877611676744925404},
                                     {-1.0, 1.0, 0.68268949213708589717},
                                     {-8.0, -7.5, 3.1286820671681783865e-14},
                                     {0.5, 3.0, 0.30718764069435680184},
                                     {20.0, 21.0, 2.7536241153269556761e-89}};
  for (const Interval& each : kIntervals) {
    EXPECT_LT(relative(normal_between(each.low, each.high), each.exact), 1e-15) << each.low;
    EXPECT_LT(relative(normal_between(-each.high, -each.low), each.exact), 1e-15) << each.low;
  }
  EXPECT_EQ(normal_between(1.0, 1.0), 0.0);
  const double infinity = std::numeric_limits<double>::infinity();
  EXPECT_EQ(normal_between(-infinity, infinity), 1.0);
  EXPECT_EQ(normal_between(-infinity, -2.0), normal_lower(-2.0));
  for (int i = -400; i < 400; ++i) {
    const double low = i * 0.02;
    const long double wide_low = low;
    const long double wide_high = low + 0.1;
    const double exact = static_cast<double>(normal_between(wide_low, wide_high));
    EXPECT_LT(relative(normal_between(low, low + 0.1), exact), 1e-13) << low;
    EXPECT_NEAR(normal_between(low, low + 0.1), exact, 3e-16) << low;
  }
}

// Exact digits from a continued fraction of the tail (dlmf 7.9.1) in sixty decimals.
TEST(Normal, LogarithmsGoOnWhereProbabilitiesEnd) {
  struct Interval {
    double low, high, exact;
  };
  constexpr Interval kIntervals[] = {{34.5, 35.5, -599.585736259472358306},  {36.0, 36.25, -652.503346390076624706},
                                     {40.0, 41.0, -804.608442013753788169},
                                     {59.0, 61.0, -1745.49676304485854128}, {1000.0, 1001.0, -500007.826694812184310}};
  for (const Interval& each : kIntervals) {
    EXPECT_LT(relative(log_normal_between(each.low, each.high), each.exact), 1e-13) << each.low;
    EXPECT_EQ(log_normal_between(-each.high, -each.low), log_normal_between(each.low, each.high));
  }
  EXPECT_NEAR(log_normal_between(40.0, 40.001), -807.846627311411264967, 3e-12);
  EXPECT_EQ(log_normal_between(-1.0, 2.0), natural_log(normal_between(-1.0, 2.0)));
  EXPECT_THROW((void)log_normal_between(1.0, 1.0), InternalError);
  EXPECT_THROW((void)log_normal_between(0.0, std::numeric_limits<double>::infinity()), InternalError);
}

TEST(Normal, RefusesWhatIsNoNumber) {
  EXPECT_THROW((void)normal_lower(std::nan("")), InternalError);
  EXPECT_THROW((void)normal_density(std::nan("")), InternalError);
  EXPECT_THROW((void)normal_between(1.0, 0.0), InternalError);
  EXPECT_THROW((void)normal_quantile(0.0), InternalError);
  EXPECT_THROW((void)normal_quantile(1.0), InternalError);
  EXPECT_THROW((void)normal_quantile(std::nan("")), InternalError);
  EXPECT_EQ(normal_lower(-std::numeric_limits<double>::infinity()), 0.0);
  EXPECT_EQ(normal_lower(std::numeric_limits<double>::infinity()), 1.0);
}

TEST(Normal, QuickQuantileAgrees) {
  for (double p : {1e-15, 1e-9, 0.001, 0.074, 0.076, 0.3, 0.5, 0.501, 0.77, 0.9249, 0.9251, 0.999999}) {
    EXPECT_NEAR(normal_quantile_quick(p), normal_quantile(p), 1e-12 * std::abs(normal_quantile(p)) + 1e-15) << p;
  }
}

}  // namespace
}  // namespace fettle
