#include "form/shape_estimate.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "form/bench_by_hand.h"
#include "form/shape_said.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

using namespace bench_by_hand;

TEST(ShapeEstimate, OnlyWornPartsWithAPatternAndAReadingGoThroughIt) {
  Bench bench = bores({40.0, 30.0});
  for (const Condition condition : {Condition::machined, Condition::fresh, Condition::sleeved}) {
    bench.add_part("other-" + std::string(condition_name(condition)), "cylinder-bore", Feature::inside, WearPattern::from_first, condition);
    for (std::size_t c = 0; c < 8; ++c) bench.read(bench.parts.back().part.id, c, 5.0, {0});
  }
  bench.add_part("unread", "cylinder-bore", Feature::inside, WearPattern::from_first);
  bench.add_part("piston-1", "piston", Feature::outside, WearPattern::none);
  bench.read("piston-1", 0, -60.0, {0});
  const auto groups = bench.estimate();
  std::vector<std::string> plain;
  for (const GroupEstimate& group : groups) {
    if (group.shape) {
      EXPECT_EQ(group.shape->parts, (std::vector<std::string>{"bore-1", "bore-2"}));
      continue;
    }
    EXPECT_EQ(group.model, EstimateModel::plain);
    for (const PartEstimate& part : group.parts) plain.push_back(part.part);
  }
  EXPECT_EQ(plain, (std::vector<std::string>{"other-machined", "other-new", "other-sleeved", "unread", "piston-1"}));
}

/// Which share of a level of `shift_um`, seen on n bores, belongs to a setting of sd s, if what else is seen of the level has a variance of
/// `open_um2` for one bore: 4² common and 3.4² own of the making (0.20 and 0.17 of the tolerance) stand against s². The part of the law in
/// which the group stands at another size (prior .15, sd 50) lays next to nothing to the setting; its weight follows from how well it
/// foretells the level.
double share_of_setting(double s, double shift_um, double n, double open_um2) {
  const double tight = s * s + 16.0 + (3.4 * 3.4 + open_um2) / n;
  const double loose = tight - 16.0 + 2500.0;
  const auto density = [&](double variance) { return exponential(-shift_um * shift_um / (2.0 * variance)) / std::sqrt(variance); };
  const double weight = 0.85 * density(tight) / (0.85 * density(tight) + 0.15 * density(loose));
  return weight * s * s / tight + (1.0 - weight) * s * s / loose;
}

// The open variance of one bore: rounding and repeat of two readings of the foot, texture 2, an unevenness of a few µm.
TEST(ShapeEstimate, ALevelIsSharedOutBetweenGaugeAndMaking) {
  constexpr double kShiftUm = 12.0;
  for (const std::vector<double>& worn : {std::vector<double>{40.0}, std::vector<double>{40.0, 30.0, 50.0}}) {
    const double n = static_cast<double>(worn.size());
    for (const double s : {2.0, 4.5, 8.0}) {
      const auto as_is = bores(worn, {.setting_um = s}).estimate();
      const auto shifted = bores(worn, {.setting_um = s, .added_um = kShiftUm}).estimate();
      const double share = (shape(shifted).setting.mean_um - shape(as_is).setting.mean_um) / kShiftUm;
      EXPECT_GE(share, share_of_setting(s, kShiftUm, n, 25.0) - 0.05) << n << " " << s;
      EXPECT_LE(share, share_of_setting(s, kShiftUm, n, 8.0) + 0.05) << n << " " << s;
      EXPECT_LT(shape(as_is).setting.sd_um, s) << s;  // where nothing surprises, something is learned
      EXPECT_NEAR(shape(shifted).setting.stated_um, s, 1e-6);
    }
  }
}

TEST(ShapeEstimate, ThirtyMicrometresAreAnotherSizeAndAreSaid) {
  const auto groups = bores({40.0, 30.0, 50.0}, {.added_um = 30.0}).estimate();
  EXPECT_GT(shape(groups).not_standard, 0.5);
  EXPECT_TRUE(said(shape_said(shape(groups), bore_layout(), UnitId::millimetre), "shape.not_standard"));
  EXPECT_LT(shape(bores({40.0, 30.0, 50.0}).estimate()).not_standard, 0.15);  // not above what it was before any reading
}

TEST(ShapeEstimate, TheGroupTeachesABoreAndSaysWhoDid) {
  const Bench all = bores({40.0, 30.0, 50.0, 45.0});
  Bench alone = all;
  alone.parts.resize(1);
  const auto in_group = all.estimate();
  const auto by_itself = alone.estimate();
  EXPECT_EQ(in_group.front().why.key, "why.shape_model");
  EXPECT_EQ(by_itself.front().why.key, "why.shape_model_alone");
  NormalPoints points(20);
  const Region round{{{{{{0, 1.0}, {1, -1.0}}}, 8.0}}, {}, false};  // thrust above pin by 8 µm at most, at the top
  const double with = chance_of(shape(in_group).mixture, 0, {round}, {0.0005, 1U << 18U}, points).value;
  const double without = chance_of(shape(by_itself).mixture, 0, {round}, {0.0005, 1U << 18U}, points).value;
  EXPECT_GT(std::abs(with - without), 0.005);
  for (std::size_t c = 0; c < 6; ++c) EXPECT_LT(place_posterior(shape(in_group), 0, c).sd_mm, place_posterior(shape(by_itself), 0, c).sd_mm) << c;
}

TEST(ShapeEstimate, ALessSteadyHandLeavesMoreDoubt) {
  const auto steady = bores({40.0, 30.0, 50.0}).estimate();
  const auto doubled = bores({40.0, 30.0, 50.0}, {.repeat_um = 2.0 * kRepeatUm}).estimate();
  for (std::size_t b = 0; b < 3; ++b) {
    for (std::size_t c = 0; c < 8; ++c) {
      EXPECT_GT(place_posterior(shape(doubled), b, c).sd_mm, 1.1 * place_posterior(shape(steady), b, c).sd_mm) << b << c;
    }
  }
}

TEST(ShapeEstimate, OneDivisionEverywhereIsSane) {
  Bench bench;
  const std::size_t setting = bench.source("finding-zero", ErrorScope::setting, 5.0);
  for (const char* id : {"bore-1", "bore-2"}) {
    bench.add_part(id, "cylinder-bore", Feature::inside, WearPattern::from_first);
    for (std::size_t c = 0; c < 8; ++c) bench.read(id, c, 10.0, {setting}, 0.5, 10.0);
  }
  const auto groups = bench.estimate();
  EXPECT_TRUE(shape(groups).suspects.empty());
  for (std::size_t b = 0; b < 2; ++b) {
    for (std::size_t c = 0; c < 8; ++c) {
      EXPECT_NEAR(mean_um(shape(groups), b, c), 10.0, 10.0);  // within the setting's two sd
      // One division of 10 leaves 2.9, less for what eight of them say together; never nothing.
      EXPECT_GT(place_posterior(shape(groups), b, c).sd_mm, 0.001);
      EXPECT_LT(place_posterior(shape(groups), b, c).sd_mm, 0.0065);
    }
  }
}

TEST(ShapeEstimate, AReadingFarOffIsTheSuspectAndMovesLittle) {
  const Bench bench = bores({40.0, 30.0, 50.0});
  const auto as_is = bench.estimate();
  EXPECT_TRUE(shape(as_is).suspects.empty());
  for (const double off : {60.0, -60.0}) {
    for (const std::size_t at : {2U, 5U, 9U, 20U}) {  // bore · 8 + cell
      Bench other = bench;
      other.set.sizes[at].estimate += off / 1000.0;
      const auto groups = other.estimate();
      ASSERT_EQ(shape(groups).suspects.size(), 1U) << at;
      const SuspectReading& suspect = shape(groups).suspects.front();
      EXPECT_EQ(suspect.readings, std::vector<std::string>{"r" + std::to_string(at)});
      EXPECT_GT(suspect.mistake, 0.5) << at;
      for (std::size_t k = 0; k < 24; ++k) {
        if (k == at) continue;
        EXPECT_NEAR(mean_um(shape(groups), k / 8, k % 8), mean_um(shape(as_is), k / 8, k % 8), 3.0) << at << " " << k;
      }
    }
  }
}

// A bore by itself must not take its one wrong reading for the profile of its wear, neither too large nor too small, at no place.
TEST(ShapeEstimate, ALoneBoreDoesNotLearnItsMistake) {
  for (const double most : {10.0, 40.0}) {
    const Bench bench = bores({most});
    const auto as_is = bench.estimate();
    EXPECT_TRUE(shape(as_is).suspects.empty()) << most;
    for (const double off : {60.0, 100.0, -60.0, -100.0}) {
      for (const std::size_t at : {2U, 3U, 5U}) {
        Bench other = bench;
        other.set.sizes[at].estimate += off / 1000.0;
        const auto groups = other.estimate();
        ASSERT_GE(shape(groups).suspects.size(), 1U) << most << " " << off << " " << at;
        EXPECT_EQ(shape(groups).suspects.front().cell, at) << most << " " << off;
        EXPECT_GT(shape(groups).suspects.front().mistake, 0.5) << most << " " << off << " " << at;
        EXPECT_NEAR(mean_um(shape(groups), 0, at), mean_um(shape(as_is), 0, at), 20.0) << most << " " << off << " " << at;
      }
    }
  }
}

}  // namespace
}  // namespace fettle
