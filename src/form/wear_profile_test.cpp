// Prior profiles of wear: what a kind says before anything is read, and what the readings make of it.
#include <gtest/gtest.h>

#include "form/bench_by_hand.h"
#include "form/shape_nodes.h"

namespace fettle {
namespace {

using bench_by_hand::Bench;
using bench_by_hand::kMade;
using bench_by_hand::mean_um;
using bench_by_hand::shape;

TEST(WearProfile, TextbookByHand) {
  EXPECT_NEAR(textbook_wear(WearPattern::from_first, 0.5, 0.25), 0.1353352832, 1e-10);  // exp(-2)
  EXPECT_EQ(textbook_wear(WearPattern::from_first, -0.3, 0.25), 1.0);
  EXPECT_NEAR(textbook_wear(WearPattern::both_ends, 0.5, 0.25), 0.2658022288, 1e-10);  // 2 exp(-2) / (1 + exp(-4)) = 1 / cosh 2
  EXPECT_NEAR(textbook_wear(WearPattern::both_ends, 0.25, 0.25), textbook_wear(WearPattern::both_ends, 0.75, 0.25), 1e-15);
  for (const double end : {-0.2, 0.0, 1.0, 1.2}) EXPECT_NEAR(textbook_wear(WearPattern::both_ends, end, 0.4), 1.0, 1e-15);
  for (const double height : {0.0, 0.5, 1.0}) EXPECT_EQ(textbook_wear(WearPattern::even, height, 0.4), 1.0);
}

TEST(WearProfile, OnlyASurfaceWithATopIsClampedAtIt) {
  const auto clamped = [](WearPattern pattern) {
    const ShapeKnowledge knowledge{pattern, {0.0, 1.0}, {true, true}, {0.0, 90.0}, false, 0.0, 20.0, SizeHistory::stated};
    std::size_t out = 0;
    for (const WeightedScales& each : second_pass_scales(knowledge, ShapeFreedom::usual)) out += each.scales.clamped_oval_um > 0.0 ? 1U : 0U;
    return out;
  };
  EXPECT_GT(clamped(WearPattern::from_first), 0U);
  EXPECT_EQ(clamped(WearPattern::both_ends), 0U);
  EXPECT_EQ(clamped(WearPattern::even), 0U);
}

/// Six parts worn by `share` of 40 µm at the three stations that count, read without much noise.
Bench parts_worn(Feature feature, WearPattern pattern, const std::vector<double>& share) {
  Bench bench;
  const std::size_t setting = bench.source("finding-zero", ErrorScope::setting, 4.5);
  const double sign = feature == Feature::inside ? 1.0 : -1.0;
  Generator generator(12, 5);
  for (const char* id : {"a", "b", "c", "d", "e", "f"}) {
    bench.add_part(id, "cylinder-bore", feature, pattern);
    const double most = 40.0 + 6.0 * generator.normal();
    for (std::size_t cell = 0; cell < 8; ++cell) {
      const double worn = cell < 6 ? most * share[cell / 2] : 0.0;
      bench.read(id, cell, sign * (worn + 2.0 * generator.normal()), {setting});
    }
  }
  return bench;
}

double mid_of_profile(const Bench& bench) { return shape(bench.estimate()).assumptions.front().profile[1]; }

TEST(WearProfile, AGuideLearnsHowItsEndsAndMiddleCompare) {
  const double bell = mid_of_profile(parts_worn(Feature::inside, WearPattern::both_ends, {1.0, 0.3, 0.9}));
  const double even = mid_of_profile(parts_worn(Feature::inside, WearPattern::both_ends, {1.0, 1.0, 1.0}));
  EXPECT_NEAR(bell, 0.35, 0.08);
  EXPECT_GT(even, 0.9);
  const auto groups = parts_worn(Feature::inside, WearPattern::both_ends, {1.0, 0.2, 0.3}).estimate();
  EXPECT_LT(shape(groups).assumptions.front().profile[2], 0.6);  // one-sided, against what the kind says
  EXPECT_EQ(shape(groups).assumptions.front().profile[3], 0.0);  // a reference does not wear
}

TEST(WearProfile, OfLittleWearTheKindSpeaks) {
  const std::vector<double> none = {0.0, 0.0, 0.0};
  const double bell = mid_of_profile(parts_worn(Feature::inside, WearPattern::both_ends, none));
  const auto top = shape(parts_worn(Feature::inside, WearPattern::from_first, none).estimate()).assumptions.front().profile;
  EXPECT_GT(bell, 0.4);
  EXPECT_LT(top[2], 0.3);
}

TEST(WearProfile, AShaftWornAtItsEndsIsTheMirrorOfAGuide) {
  const auto guide = parts_worn(Feature::inside, WearPattern::both_ends, {1.0, 0.4, 0.8}).estimate();
  const auto stem = parts_worn(Feature::outside, WearPattern::both_ends, {1.0, 0.4, 0.8}).estimate();
  ASSERT_EQ(shape(guide).nodes.size(), shape(stem).nodes.size());
  for (std::size_t cell = 0; cell < 8; ++cell) EXPECT_NEAR(mean_um(shape(guide), 2, cell), -mean_um(shape(stem), 2, cell), 1e-6) << cell;
  EXPECT_GT(mean_um(shape(guide), 2, 0), 20.0);
  EXPECT_LT(mean_um(shape(stem), 2, 0), -20.0);
}

/// A station that counts, but that nothing runs on, tells what the part was before it wore: it holds the level.
TEST(WearProfile, BesideARockerNothingIsWorn) {
  Bench bench = parts_worn(Feature::outside, WearPattern::even, {1.0, 1.0, 0.0});
  for (PartOnBench& part : bench.parts) part.wear.unworn = {"bottom"};
  const auto groups = bench.estimate();
  EXPECT_EQ(shape(groups).knowledge.wears, (std::vector<bool>{true, true, false, false}));
  EXPECT_EQ(shape(groups).assumptions.front().profile, (std::vector<double>{1.0, 1.0, 0.0, 0.0}));
  EXPECT_FALSE(shape(groups).knowledge == shape(parts_worn(Feature::outside, WearPattern::even, {1.0, 1.0, 0.0}).estimate()).knowledge);
}

}  // namespace
}  // namespace fettle
