#include "numeric/range_constants.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/assertion.h"
#include "numeric/draws.h"

namespace fettle {
namespace {

constexpr double kPi = 3.14159265358979323846;

TEST(RangeConstants, HaveTheirClosedForms) {
  EXPECT_NEAR(range_mean(2), 2.0 / std::sqrt(kPi), 2e-13);
  EXPECT_NEAR(range_mean(3), 3.0 / std::sqrt(kPi), 3e-13);
  EXPECT_NEAR(range_deviation(2), std::sqrt(2.0 - 4.0 / kPi), 1e-10);
  EXPECT_NEAR(pooled_range_divisor(2, 1), std::sqrt(2.0), 1e-10);
  EXPECT_NEAR(deviation_mean(2.0), std::sqrt(2.0 / kPi), 1e-14);
  EXPECT_NEAR(deviation_mean(3.0), std::sqrt(kPi) / 2.0, 1e-14);
  EXPECT_THROW((void)range_mean(1), InternalError);
  EXPECT_THROW((void)range_deviation(101), InternalError);
}

// For 100 values: tippett1925 prints 5.015 (from memory); for 25 printed tables have 3.931 and 0.708.
TEST(RangeConstants, OfManyValues) {
  EXPECT_NEAR(range_mean(100), 5.015, 6e-4);
  EXPECT_NEAR(range_mean(25), 3.931, 6e-4);
  EXPECT_NEAR(range_deviation(25), 0.708, 6e-4);
}

// One range of two values has one degree of freedom, as their standard deviation has; of many groups of two 0.876 for each.
TEST(RangeConstants, DegreesOfFreedom) {
  EXPECT_NEAR(range_degrees_of_freedom(2, 1), 1.0, 1e-6);
  EXPECT_NEAR(range_degrees_of_freedom(2, 1000) / 1000.0, 0.876, 0.001);
  // Printed tables have 3.8 for one range of five (from memory).
  EXPECT_NEAR(range_degrees_of_freedom(5, 1), 3.8, 0.05);
  EXPECT_LT(range_degrees_of_freedom(10, 1), 9.0);
}

TEST(RangeConstants, AgreeWithDraws) {
  Generator generator(11, 4);
  std::vector<double> all(4 * 50'000);
  draw(generator, DrawShape::normal, 1.0, std::nullopt, all);
  double sum = 0.0;
  double squares = 0.0;
  for (std::size_t i = 0; i < all.size(); i += 4) {
    const auto [least, most] = std::minmax_element(all.begin() + static_cast<std::ptrdiff_t>(i), all.begin() + static_cast<std::ptrdiff_t>(i + 4));
    sum += *most - *least;
    squares += (*most - *least) * (*most - *least);
  }
  const double mean = sum / 50'000.0;
  EXPECT_NEAR(mean, range_mean(4), 4.0 * 0.88 / std::sqrt(50'000.0));
  EXPECT_NEAR(std::sqrt(squares / 50'000.0 - mean * mean), range_deviation(4), 0.013);
}

}  // namespace
}  // namespace fettle
