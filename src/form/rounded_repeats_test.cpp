#include "form/rounded_repeats.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "numeric/draws.h"

namespace fettle {
namespace {

/// Share of 4000 sizes that lie within 1.96 standard deviations of the mean of their rounded repeats; and the same if rounding's s²/12 were
/// divided by the number of repeats.
struct Cover {
  double ours;
  double naive;
};

Cover cover(double repeat_sd, double step, std::size_t repeats) {
  Generator generator(11, repeats);
  constexpr int kSizes = 4000;
  Cover out{0.0, 0.0};
  for (int k = 0; k < kSizes; ++k) {
    const double size = step * generator.uniform();
    std::vector<double> readings;
    double mean = 0.0;
    for (std::size_t r = 0; r < repeats; ++r) {
      readings.push_back(std::floor((size + repeat_sd * generator.normal()) / step + 0.5) * step);
      mean += readings.back() / static_cast<double>(repeats);
    }
    const RoundedMean moments = rounded_mean(readings, repeat_sd, step);
    out.ours += std::abs(size - moments.mean) <= 1.96 * std::sqrt(moments.variance) ? 1.0 / kSizes : 0.0;
    const double naive = (repeat_sd * repeat_sd + step * step / 12.0) / static_cast<double>(repeats);
    out.naive += std::abs(size - mean) <= 1.96 * std::sqrt(naive) ? 1.0 / kSizes : 0.0;
  }
  return out;
}

// The figures of our trials: divided naively, the cover of 95 % falls to .60 (step 10, sd 1, eight repeats), .855 (three), .89 (sd 2, eight).
TEST(RoundedRepeats, CoverTheSizeWhereTheNaiveMeanDoesNot) {
  const Cover eight = cover(1.0, 10.0, 8);
  EXPECT_GT(eight.ours, 0.94);
  EXPECT_NEAR(eight.naive, 0.60, 0.04);
  const Cover three = cover(1.0, 10.0, 3);
  EXPECT_GT(three.ours, 0.94);
  EXPECT_NEAR(three.naive, 0.855, 0.03);
  const Cover wider = cover(2.0, 10.0, 8);
  EXPECT_GT(wider.ours, 0.94);
  EXPECT_NEAR(wider.naive, 0.89, 0.03);
}

// One division shown five times by a steady hand: the size lies evenly in that division, less about one repeat sd at either end, where five
// readings would hardly all have been rounded the same way: (10 - 2·0.05)²/12 = 8.2.
TEST(RoundedRepeats, TheSameDivisionAgainSaysLittleMore) {
  const std::vector<double> same(5, 20.0);
  const RoundedMean moments = rounded_mean(same, 0.05, 10.0);
  EXPECT_NEAR(moments.mean, 20.0, 0.05);
  EXPECT_NEAR(moments.variance, 8.17, 0.1);
}

// Two readings far apart: each edge is so far off that its tail falls like a Gaussian's, so they meet half-way with u/√2 left. Of three the
// tails weigh as readings do, less the half step that each may be off: D with Σ (distance beyond the edge) = 0.
TEST(RoundedRepeats, ReadingsFarApartMeetHalfWay) {
  const RoundedMean two = rounded_mean(std::vector<double>{0.0, 60.0}, 1.0, 10.0);
  EXPECT_NEAR(two.mean, 30.0, 0.01);
  EXPECT_NEAR(two.variance, 0.5, 0.02);
  const RoundedMean three = rounded_mean(std::vector<double>{0.0, 0.0, 60.0}, 2.0, 10.0);
  EXPECT_NEAR(three.mean, (5.0 + 5.0 + 55.0) / 3.0, 0.2);
  EXPECT_NEAR(three.variance, 4.0 / 3.0, 0.05);
}

// The outlier stays an outlier however steady the hand is: the tails go on where their probabilities are below the smallest double.
TEST(RoundedRepeats, ReadingsThatContradictEachOtherAreAllHeard) {
  for (const double repeat_sd : {1.0, 0.5, 0.05}) {
    const RoundedMean three = rounded_mean(std::vector<double>{0.0, 0.0, 60.0}, repeat_sd, 10.0);
    EXPECT_NEAR(three.mean, (5.0 + 5.0 + 55.0) / 3.0, 0.1) << repeat_sd;
    EXPECT_NEAR(three.variance, repeat_sd * repeat_sd / 3.0, 0.03 * repeat_sd * repeat_sd) << repeat_sd;
  }
}

// A hand so steady that its doubt falls between the points of the grid: two neighbouring divisions say where their border is.
TEST(RoundedRepeats, NeighbouringDivisionsSayWhereTheirBorderIs) {
  for (const double repeat_sd : {2.0, 0.5, 0.05, 0.01}) {
    const RoundedMean moments = rounded_mean(std::vector<double>{20.0, 30.0, 30.0, 20.0}, repeat_sd, 10.0);
    EXPECT_NEAR(moments.mean, 25.0, 1e-9) << repeat_sd;
    EXPECT_GT(moments.variance, 0.0) << repeat_sd;
    EXPECT_LT(moments.variance, repeat_sd * repeat_sd) << repeat_sd;
  }
}

}  // namespace
}  // namespace fettle
