#include "numeric/mixture_chance.h"

#include <gtest/gtest.h>

#include <cmath>

#include "numeric/draws.h"
#include "numeric/normal.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr ChanceAccuracy kUsual{0.002, 1U << 17U};
constexpr double kPi = 3.14159265358979323846;

BlockPosterior block(std::vector<double> mean, std::vector<double> own) { return {std::move(mean), {}, std::move(own)}; }

Region at_most(const std::vector<std::pair<std::size_t, double>>& cells_and_bounds) {
  Region region{{}, {}, false};
  for (const auto& [cell, bound] : cells_and_bounds) region.half_spaces.push_back({{{{cell, 1.0}}}, bound});
  return region;
}

// Sheppard 1899: P(x < 0, y < 0) = 1/4 + asin(rho) / (2 pi); of three, 1/8 + (sum of asin) / (4 pi).
TEST(MixtureChance, OrthantsOfTwoAndThree) {
  NormalPoints points(20);
  for (double rho : {-0.9, -0.3, 0.0, 0.5, 0.95}) {
    const GaussianMixture two = {{1.0, {block({0, 0}, {1, rho, rho, 1})}}};
    const Chance chance = chance_of(two, 0, {at_most({{0, 0.0}, {1, 0.0}})}, kUsual, points);
    EXPECT_NEAR(chance.value, 0.25 + std::asin(rho) / (2.0 * kPi), 0.003) << rho;
  }
  const double a = 0.6;
  const double b = 0.2;
  const double c = -0.4;
  const GaussianMixture three = {{1.0, {block({0, 0, 0}, {1, a, b, a, 1, c, b, c, 1})}}};
  const Chance chance = chance_of(three, 0, {at_most({{0, 0.0}, {1, 0.0}, {2, 0.0}})}, kUsual, points);
  EXPECT_NEAR(chance.value, 0.125 + (std::asin(a) + std::asin(b) + std::asin(c)) / (4.0 * kPi), 0.003);
}

// Rayleigh: P(|(x, y)| < r) = 1 - exp(-r²/2).
TEST(MixtureChance, ADiscIsRayleigh) {
  NormalPoints points(20);
  const GaussianMixture mixture = {{1.0, {block({0, 0}, {1, 0, 0, 1})}}};
  for (double radius : {0.3, 1.0, 2.5}) {
    const Region disc{{}, {{{{{0, 1.0}}}, {{{1, 1.0}}}, radius}}, false};
    EXPECT_NEAR(chance_of(mixture, 0, {disc}, kUsual, points).value, 1.0 - std::exp(-radius * radius / 2.0), 0.003);
    Region out = disc;
    out.outside = true;
    EXPECT_NEAR(chance_of(mixture, 0, {out}, kUsual, points).value, std::exp(-radius * radius / 2.0), 0.003);
  }
}

TEST(MixtureChance, OneBoundIsExact) {
  NormalPoints points(20);
  const GaussianMixture mixture = {{0.25, {block({1.0}, {4.0})}}, {0.75, {block({-1.0}, {1.0})}}};
  const Chance chance = chance_of(mixture, 0, {at_most({{0, 0.5}})}, kUsual, points);
  EXPECT_DOUBLE_EQ(chance.value, 0.25 * normal_lower(-0.25) + 0.75 * normal_lower(1.5));
  EXPECT_EQ(chance.standard_error, 0.0);
}

/// A random mixture of two blocks of six cells with shared unknowns.
struct Random {
  GaussianMixture mixture;
  std::vector<std::vector<Region>> regions;
};

Random random_case(std::uint64_t seed) {
  Generator generator(seed, 1);
  Random out;
  constexpr std::size_t kCells = 6;
  constexpr std::size_t kCommon = 3;
  double weights = 0.0;
  for (int n = 0; n < 5; ++n) {
    MixtureNode node{0.1 + generator.uniform(), {}};
    weights += node.weight;
    for (int b = 0; b < 2; ++b) {
      BlockPosterior posterior{std::vector<double>(kCells), std::vector<double>(kCells * kCommon), std::vector<double>(kCells * kCells, 0.0)};
      for (double& each : posterior.mean) each = 0.5 * generator.normal();
      for (double& each : posterior.gain) each = 0.5 * generator.normal();
      for (int k = 0; k < 7; ++k) {
        std::vector<double> column(kCells);
        generator.normals(column);
        for (std::size_t i = 0; i < kCells; ++i) {
          for (std::size_t j = 0; j < kCells; ++j) posterior.own[i * kCells + j] += 0.15 * column[i] * column[j];
        }
      }
      node.blocks.push_back(std::move(posterior));
    }
    out.mixture.push_back(std::move(node));
  }
  for (MixtureNode& node : out.mixture) node.weight /= weights;
  for (int b = 0; b < 2; ++b) {
    Region largest = at_most({{0, 2.0}, {1, 2.0}, {2, 2.0}, {3, 2.0}, {4, 2.0}, {5, 2.0}});
    Region range{{}, {}, false};  // |x0 - x1|, |x2 - x3| at most 2.5
    for (std::size_t i : {0U, 2U}) {
      range.half_spaces.push_back({{{{i, 1.0}, {i + 1, -1.0}}}, 2.5});
      range.half_spaces.push_back({{{{i, -1.0}, {i + 1, 1.0}}}, 2.5});
    }
    Region not_all_low = at_most({{0, -0.5}, {4, -0.5}});
    not_all_low.outside = true;
    Region oval{{}, {{{{{0, 0.5}, {1, -0.5}}}, {{{2, 0.5}, {3, -0.5}}}, 1.2}}, false};
    out.regions.push_back({largest, range, not_all_low, oval});
  }
  return out;
}

bool lies_in(const Region& region, const std::vector<double>& x) {
  const auto value = [&](const CellSum& sum) {
    double v = 0.0;
    for (const auto& [cell, coefficient] : sum.terms) v += coefficient * x[cell];
    return v;
  };
  bool all = true;
  for (const HalfSpace& half : region.half_spaces) all = all && value(half.sum) <= half.most;
  for (const Disc& disc : region.discs) {
    all = all && value(disc.first) * value(disc.first) + value(disc.second) * value(disc.second) <= disc.radius * disc.radius;
  }
  return all != region.outside;
}

/// Plain draws: share of the first block alone, and of both.
std::pair<double, double> by_plain_draws(const Random& c, std::size_t draws) {
  Generator generator(99, 5);
  std::size_t first = 0;
  std::size_t both = 0;
  for (const MixtureNode& node : c.mixture) {
    std::vector<std::vector<double>> factors;
    for (const BlockPosterior& each : node.blocks) {
      factors.push_back(each.own);
      EXPECT_TRUE(factor_upper(factors.back(), 6));
    }
    const auto count = static_cast<std::size_t>(node.weight * static_cast<double>(draws));
    for (std::size_t k = 0; k < count; ++k) {
      std::vector<double> eta(3);
      generator.normals(eta);
      bool kept[2];
      for (std::size_t b = 0; b < 2; ++b) {
        std::vector<double> z(6);
        generator.normals(z);
        std::vector<double> x = node.blocks[b].mean;
        for (std::size_t i = 0; i < 6; ++i) {
          for (std::size_t j = 0; j <= i; ++j) x[i] += factors[b][j * 6 + i] * z[j];
          for (std::size_t e = 0; e < 3; ++e) x[i] += node.blocks[b].gain[i * 3 + e] * eta[e];
        }
        kept[b] = true;
        for (const Region& region : c.regions[b]) kept[b] = kept[b] && lies_in(region, x);
      }
      first += kept[0] ? 1U : 0U;
      both += kept[0] && kept[1] ? 1U : 0U;
    }
  }
  return {static_cast<double>(first) / static_cast<double>(draws), static_cast<double>(both) / static_cast<double>(draws)};
}

TEST(MixtureChance, AgreesWithPlainDraws) {
  NormalPoints points(20);
  for (std::uint64_t seed = 1; seed <= 4; ++seed) {
    const Random c = random_case(seed);
    const auto [first, both] = by_plain_draws(c, 1'000'000);  // standard error at most 0.0005
    const Chance one = chance_of(c.mixture, 0, c.regions[0], kUsual, points);
    const Chance joint = joint_chance(c.mixture, c.regions, kUsual, points);
    EXPECT_GT(first, 0.02);
    EXPECT_NEAR(one.value, first, 0.004) << seed;
    EXPECT_NEAR(joint.value, both, 0.004) << seed;
    EXPECT_LE(one.standard_error, 0.001);
    EXPECT_LE(joint.standard_error, 0.001);
    EXPECT_LE(joint.value, one.value + 0.004);
  }
}

TEST(MixtureChance, DrawsHaveTheLawOfTheMixture) {
  NormalPoints points(20);
  const Random c = random_case(3);
  const auto draws = mixture_draws(c.mixture, 1, 4096, points);
  for (std::size_t cell = 0; cell < 6; ++cell) {
    double mean = 0.0;
    double square = 0.0;
    for (const MixtureNode& node : c.mixture) {
      const BlockPosterior& here = node.blocks[1];
      double variance = here.own[cell * 6 + cell];
      for (std::size_t e = 0; e < 3; ++e) variance += here.gain[cell * 3 + e] * here.gain[cell * 3 + e];
      mean += node.weight * here.mean[cell];
      square += node.weight * (variance + here.mean[cell] * here.mean[cell]);
    }
    double drawn = 0.0;
    double drawn_square = 0.0;
    for (double each : draws[cell]) {
      drawn += each / 4096.0;
      drawn_square += each * each / 4096.0;
    }
    EXPECT_NEAR(drawn, mean, 0.02);
    EXPECT_NEAR(drawn_square, square, 0.05);
  }
}

TEST(NormalPoints, GrowingChangesNothing) {
  NormalPoints small(5);
  NormalPoints large(5);
  for (std::size_t dimension : {0U, 7U, 255U, 256U, 400U}) {
    const double far = large.coordinate(3, dimension, 5000, 1)[0];
    EXPECT_EQ(small.coordinate(3, dimension, 10, 1)[0], large.coordinate(3, dimension, 10, 1)[0]);
    EXPECT_EQ(small.coordinate(3, dimension, 5000, 1)[0], far);
  }
}

}  // namespace
}  // namespace fettle
