#include "numeric/elementary.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/assertion.h"
#include "numeric/xoshiro.h"

namespace fettle {
namespace {

// How far `value` is from `exact` in units of the last place of the nearest double.
double ulps(double value, long double exact) {
  const double nearest = static_cast<double>(exact);
  const double step = std::nextafter(std::fabs(nearest), std::numeric_limits<double>::infinity()) - std::fabs(nearest);
  return static_cast<double>(std::fabs(static_cast<long double>(value) - exact) / static_cast<long double>(step));
}

constexpr int kPoints = 300'000;

TEST(Elementary, ExponentialIsWithinOneUlp) {
  Xoshiro256 bits = Xoshiro256::stream(1, 1);
  double worst = 0.0;
  for (int i = 0; i < kPoints; ++i) {
    const double part = uniform_of_bits(bits.next());
    for (const double x : {-708.0 + part * 1417.7, 2.0 * part - 1.0, -745.0 + part * 37.0, (part - 0.5) * 1e-9}) {
      worst = std::fmax(worst, ulps(exponential(x), std::exp(static_cast<long double>(x))));
    }
  }
  EXPECT_LT(worst, 1.0);
  EXPECT_GT(worst, 0.5) << "the worst rounding was not met: the points do not search";
}

TEST(Elementary, NaturalLogIsWithinOneUlp) {
  Xoshiro256 bits = Xoshiro256::stream(1, 2);
  double worst = 0.0;
  for (int i = 0; i < kPoints; ++i) {
    const double part = uniform_of_bits(bits.next());
    const double anywhere = std::bit_cast<double>(bits.next() % 0x7ff0'0000'0000'0000U + 1U);
    for (const double x : {part, 0.5 + part, 1.0 + (part - 0.5) * 1e-6, std::fmin(anywhere, 1e308)}) {
      worst = std::fmax(worst, ulps(natural_log(x), std::log(static_cast<long double>(x))));
    }
  }
  EXPECT_LT(worst, 1.0);
  EXPECT_GT(worst, 0.5);
}

TEST(Elementary, WiderTypeAgreesWithTheSystem) {
  for (int i = -7000; i <= 7000; ++i) {
    const long double x = static_cast<long double>(i) / 10;
    EXPECT_NEAR(static_cast<double>(exponential(x) / std::exp(x) - 1), 0.0, 4e-19) << i;
    const long double y = std::exp(x);
    EXPECT_NEAR(static_cast<double>(natural_log(y) - std::log(y)), 0.0, 1e-19 * (1.0 + std::fabs(i))) << i;
  }
}

// e and ln 2 to the nearest double, from their decimals (dlmf 4.2.11; ln 2 = 0.693147180559945309417...).
TEST(Elementary, KnowsItsConstants) {
  EXPECT_EQ(exponential(0.0), 1.0);
  EXPECT_NEAR(exponential(1.0), 2.718281828459045, 4.5e-16);  // one unit in the last place, as stated
  EXPECT_EQ(natural_log(1.0), 0.0);
  EXPECT_EQ(natural_log(2.0), 0.6931471805599453);
  EXPECT_EQ(natural_log(std::numeric_limits<double>::denorm_min()), -744.4400719213812);  // 1074 ln 2
}

TEST(Elementary, AnswersAtTheEdgesAsStated) {
  EXPECT_EQ(exponential(-745.3), 0.0);
  EXPECT_EQ(exponential(-std::numeric_limits<double>::infinity()), 0.0);
  EXPECT_EQ(exponential(-745.0), std::numeric_limits<double>::denorm_min());
  EXPECT_TRUE(std::isfinite(exponential(kExponentialMost)));
  EXPECT_THROW((void)exponential(709.79), InternalError);
  EXPECT_THROW((void)exponential(std::nan("")), InternalError);
  EXPECT_THROW((void)natural_log(0.0), InternalError);
  EXPECT_THROW((void)natural_log(-1.0), InternalError);
  EXPECT_THROW((void)natural_log(std::nan("")), InternalError);
  EXPECT_THROW((void)natural_log(std::numeric_limits<double>::infinity()), InternalError);
}

}  // namespace
}  // namespace fettle
