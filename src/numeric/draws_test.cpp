#include "numeric/draws.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

#include "base/assertion.h"
#include "numeric/elementary.h"
#include "numeric/normal.h"
#include "numeric/student_t.h"
#include "numeric/ziggurat_tables.h"

namespace fettle {
namespace {

// The generators' published test outputs: SplitMix64 from 1234567; xoshiro256++ from the state 1, 2, 3, 4 (from memory;
// the first by hand: rotl(1 + 4, 23) + 1 = 5 * 2^23 + 1).
TEST(Draws, XoshiroGivesThePublishedSequence) {
  std::uint64_t state = 1234567;
  EXPECT_EQ(splitmix64(state), 6457827717110365317U);
  EXPECT_EQ(splitmix64(state), 3203168211198807973U);
  EXPECT_EQ(splitmix64(state), 9817491932198370423U);
  Xoshiro256 bits(1, 2, 3, 4);
  constexpr std::uint64_t kPublished[] = {41943041U,
                                          58720359U,
                                          3588806011781223U,
                                          3591011842654386U,
                                          9228616714210784205U,
                                          9973669472204895162U,
                                          14011001112246962877U,
                                          12406186145184390807U,
                                          15849039046786891736U,
                                          10450023813501588000U};
  for (const std::uint64_t expected : kPublished) EXPECT_EQ(bits.next(), expected);
}

TEST(Draws, SeedsAndStreamsShareNothing) {
  const auto first = [](std::uint64_t seed, std::uint64_t stream) { return Generator(seed, stream).next(); };
  EXPECT_EQ(first(1, 2), first(1, 2));
  EXPECT_NE(first(1, 2), first(2, 1));
  EXPECT_NE(first(1, 2), first(1, 3));
  EXPECT_NE(first(0, 0), first(0, 1));
}

TEST(Draws, UniformNeverReachesItsEnds) {
  EXPECT_EQ(uniform_of_bits(0), 0x1p-53);
  EXPECT_EQ(uniform_of_bits(~std::uint64_t{0}), 1.0 - 0x1p-53);
}

// Every layer holds the area v; the base layer with its tail too. In the wider type; tolerance: x and f are rounded to
// double, which moves an area by a few 1e-16 at most.
TEST(Draws, ZigguratTablesHaveLayersOfEqualArea) {
  const long double v = 0.00492867323397465536177540234256L;
  const long double start = kZigguratX[1];
  const long double tail = std::sqrt(3.14159265358979323846L / 2) * std::erfc(start / std::sqrt(2.0L));
  EXPECT_NEAR(static_cast<double>(start * kZigguratF[1] + tail - v), 0.0, 1e-17);
  EXPECT_NEAR(static_cast<double>(static_cast<long double>(kZigguratX[0]) * kZigguratF[1] - v), 0.0, 1e-17);
  for (std::size_t i = 1; i < kZigguratLayers; ++i) {
    const long double height = static_cast<long double>(kZigguratF[i + 1]) - kZigguratF[i];
    EXPECT_NEAR(static_cast<double>(kZigguratX[i] * height - v), 0.0, 5e-16) << i;
    const long double x = kZigguratX[i];
    EXPECT_NEAR(static_cast<double>(kZigguratF[i] / std::exp(-x * x / 2) - 1), 0.0, 1.2e-16) << i;
  }
  EXPECT_EQ(kZigguratX[kZigguratLayers], 0.0);
  EXPECT_EQ(kZigguratF[kZigguratLayers], 1.0);
}

// Chi-squared of the counts in 256 classes of equal probability, `lower` being the distribution function. With 255
// degrees of freedom its mean is 255 and its standard deviation 22.6; the seeds are fixed, and 345 is four of them
// above.
template <class Draw, class Lower>
double misfit(int draws, Draw draw, Lower lower) {
  std::vector<int> counts(256, 0);
  for (int i = 0; i < draws; ++i) ++counts[static_cast<std::size_t>(256.0 * lower(draw()))];
  const double expected = draws / 256.0;
  double sum = 0.0;
  for (const int count : counts) sum += (count - expected) * (count - expected) / expected;
  return sum;
}
constexpr double kFits = 345.0;

TEST(Draws, NormalHasItsDistribution) {
  Generator generator(20, 1);
  int far = 0;
  const auto draw = [&] {
    const double z = generator.normal();
    if (std::fabs(z) > kZigguratX[1]) ++far;
    return z;
  };
  EXPECT_LT(misfit(4'000'000, draw, [](double z) { return normal_lower(z); }), kFits);
  // The tail's own path: expected 4e6 * 2 * upper(3.654) = 1032, standard deviation 32.
  EXPECT_NEAR(far, 4e6 * 2.0 * normal_upper(kZigguratX[1]), 130.0);
}

TEST(Draws, NormalHasItsDistributionInTheTail) {
  Generator generator(20, 2);
  std::vector<double> far;
  while (far.size() < 20'000) {
    std::vector<double> block(100'000);
    generator.normals(block);
    for (const double z : block) {
      if (z > 3.0) far.push_back(normal_upper(z) / normal_upper(3.0));
    }
  }
  std::size_t next = 0;
  EXPECT_LT(misfit(
                20'000, [&] { return far[next++]; }, [](double p) { return p; }),
            kFits);
}

TEST(Draws, InARowAreTheSameDraws) {
  Generator one(7, 3);
  Generator other(7, 3);
  std::vector<double> row(5000);
  one.normals(row);
  for (const double z : row) EXPECT_EQ(z, other.normal());
  EXPECT_EQ(one.next(), other.next());
}

TEST(Draws, UniformRectangularAndTriangularHaveTheirDistributions) {
  Generator generator(21, 1);
  EXPECT_LT(misfit(
                1'000'000, [&] { return generator.uniform(); }, [](double x) { return x; }),
            kFits);
  EXPECT_LT(misfit(
                1'000'000, [&] { return generator.rectangular(); }, [](double x) { return (x + 1.0) / 2.0; }),
            kFits);
  EXPECT_LT(misfit(
                1'000'000, [&] { return generator.triangular(); },
                [](double x) { return x < 0.0 ? (1.0 + x) * (1.0 + x) / 2.0 : 1.0 - (1.0 - x) * (1.0 - x) / 2.0; }),
            kFits);
}

// 2 degrees: 1 - e^(-x/2); 1 degree: the square of a normal; 5: by way of 2 z phi and the recurrence F(v+2) = F(v) -
// term.
TEST(Draws, ChiSquaredHasItsDistribution) {
  Generator generator(22, 1);
  const auto one = [](double x) { return normal_between(-std::sqrt(x), std::sqrt(x)); };
  EXPECT_LT(misfit(
                1'000'000, [&] { return generator.chi_squared(1.0); }, one),
            kFits);
  EXPECT_LT(
      misfit(
          1'000'000, [&] { return generator.chi_squared(2.0); }, [](double x) { return 1.0 - std::exp(-x / 2.0); }),
      kFits);
  const auto five = [&](double x) {
    const double root = std::sqrt(x);
    return one(x) - 2.0 * normal_density(root) * (root + root * root * root / 3.0);
  };
  EXPECT_LT(misfit(
                1'000'000, [&] { return generator.chi_squared(5.0); }, five),
            kFits);
}

TEST(Draws, ChiSquaredOfRealDegreesHasItsMoments) {
  for (const double degrees : {0.3, 0.9, 1.7, 8.4, 120.5}) {
    Generator generator(23, static_cast<std::uint64_t>(degrees * 10.0));
    constexpr int kDraws = 400'000;
    double sum = 0.0;
    double squares = 0.0;
    for (int i = 0; i < kDraws; ++i) {
      const double x = generator.chi_squared(degrees);
      ASSERT_GT(x, 0.0);
      sum += x;
      squares += x * x;
    }
    const double mean = sum / kDraws;
    const double variance = squares / kDraws - mean * mean;
    // Mean v, variance 2v, fourth central moment 12 v (v + 4): four standard errors of each.
    EXPECT_NEAR(mean, degrees, 4.0 * std::sqrt(2.0 * degrees / kDraws)) << degrees;
    EXPECT_NEAR(variance, 2.0 * degrees,
                4.0 * std::sqrt((12.0 * degrees * (degrees + 4.0) - 4.0 * degrees * degrees) / kDraws));
  }
  Generator generator(24, 1);
  for (int i = 0; i < 10'000; ++i) ASSERT_GT(generator.chi_squared(1e-3), 0.0);
}

TEST(Draws, StudentTHasItsDistribution) {
  for (const double degrees : {1.0, 2.5, 4.0, 30.0}) {
    Generator generator(25, static_cast<std::uint64_t>(degrees));
    const auto draw = [&] { return generator.student_t(degrees); };
    EXPECT_LT(misfit(200'000, draw, [&](double t) { return student_t_lower(t, degrees); }), kFits) << degrees;
  }
  EXPECT_EQ(Generator(25, 1).student_t(std::nullopt), Generator(25, 1).normal());
}

// 1e6 draws: the standard deviation is known to 0.1 % or better; four times that.
TEST(Draws, ShapesHaveTheStandardUncertainty) {
  std::vector<double> out(1'000'000);
  for (const DrawShape shape : {DrawShape::normal, DrawShape::rectangular, DrawShape::triangular}) {
    Generator generator(26, 1);
    draw(generator, shape, 2.5, std::nullopt, out);
    double squares = 0.0;
    for (const double x : out) squares += x * x;
    EXPECT_NEAR(std::sqrt(squares / 1e6), 2.5, 0.01);
  }
  Generator generator(26, 2);
  draw(generator, DrawShape::normal, 2.5, 10.0, out);
  double squares = 0.0;
  for (const double x : out) squares += x * x;
  EXPECT_NEAR(std::sqrt(squares / 1e6), 2.5 * std::sqrt(10.0 / 8.0), 0.015);
  EXPECT_THROW(draw(generator, DrawShape::normal, -1.0, std::nullopt, out), InternalError);
  EXPECT_THROW((void)generator.chi_squared(0.0), InternalError);
}

}  // namespace
}  // namespace fettle
