#include "advice/next_visit.h"

#include <gtest/gtest.h>

#include <cmath>

#include "numeric/draws.h"

namespace fettle {
namespace {

constexpr std::size_t kManyDraws = 4096;

/// Two places of one part that were each read once under one setting on one master, flat before that; the second place is a foot of known
/// size. Errors in µm.
struct Two {
  double master;
  double setting;
  double reading;
  GroupDraws draws{kManyDraws, {0.0, 1.0}, {"part"}, {{{}, {}}}, {}, {}};
  SizeSet own;

  Two(double master_um, double setting_um, double reading_um) : master(master_um), setting(setting_um), reading(reading_um) {
    const auto source = [&](const char* id, ErrorScope scope, double um) {
      own.sources.push_back({id, id, scope, ErrorShape::normal, um / 1000.0, {}, "test"});
    };
    source("limit", ErrorScope::master, master_um);
    source("finding-zero", ErrorScope::setting, setting_um);
    source("repeat", ErrorScope::reading, reading_um);
    draws.sources = own.sources;
    draws.errors.assign(3, std::vector<double>(kManyDraws));
    for (std::size_t cell = 0; cell < 2; ++cell) {
      own.sizes.push_back({"r", "part", "set-1", cell, Ratio(), 0.0, {{0, 1.0}, {1, 1.0}, {2, 1.0}}});
      draws.places[0][cell].resize(kManyDraws);
    }
    Generator generator(3, 2);
    for (std::size_t d = 0; d < kManyDraws; ++d) {
      draws.errors[0][d] = generator.normal();
      draws.errors[1][d] = generator.normal();
      const double shared = master_um * draws.errors[0][d] + setting_um * draws.errors[1][d];
      for (std::size_t cell = 0; cell < 2; ++cell) draws.places[0][cell][d] = -shared - reading_um * generator.normal();
    }
    draws.errors[2].clear();
  }

  /// The size at the first place stands on its limit.
  [[nodiscard]] Stake stake() const {
    Stake out{"part", 0.5, draws.places[0][0], 0.0};
    double mean = 0.0;
    for (const double each : out.margin) mean += each / static_cast<double>(kManyDraws);
    for (double& each : out.margin) {
      each -= mean;
      out.variance += each * each / static_cast<double>(kManyDraws);
    }
    return out;
  }

  [[nodiscard]] double explained(VisitSort sort, std::size_t settings, std::size_t readings) const {
    const auto steps = plan_visit({sort, settings, readings}, draws, own, {stake()}, {1.0});
    return steps.back().explained.front();
  }
};

// What n readings of the place leave of the variance of its size, in closed form: m² + s² + r² before.
TEST(NextVisit, RepeatsCannotTouchWhatTheyShare) {
  const Two two(2.0, 5.0, 3.0);
  const double all = 4.0 + 25.0 + 9.0;
  // Under the old setting n + 1 readings are averaged: only r² falls.
  for (const std::size_t n : {std::size_t{1}, std::size_t{5}}) {
    const double left = 29.0 + 9.0 / static_cast<double>(n + 1);
    EXPECT_NEAR(two.explained(VisitSort::same_setting, 1, n), 1.0 - left / all, 0.02) << n;
  }
}

TEST(NextVisit, AFreshSettingHalvesTheSettingButNotTheMaster) {
  const Two two(2.0, 5.0, 3.0);
  const double all = 4.0 + 25.0 + 9.0;
  // One reading of the place under a fresh setting: two settings, two readings, one master.
  EXPECT_NEAR(two.explained(VisitSort::fresh_setting, 1, 1), 1.0 - (4.0 + 25.0 / 2.0 + 9.0 / 2.0) / all, 0.02);
  // Under two fresh settings one reading each.
  EXPECT_NEAR(two.explained(VisitSort::fresh_setting, 2, 2), 1.0 - (4.0 + 25.0 / 3.0 + 9.0 / 3.0) / all, 0.025);
}

TEST(NextVisit, OnlyAnotherMasterTouchesTheMaster) {
  const Two two(20.0, 2.0, 1.0);
  EXPECT_LT(two.explained(VisitSort::same_setting, 1, 6), 0.02);
  EXPECT_LT(two.explained(VisitSort::fresh_setting, 1, 6), 0.02);
  EXPECT_GT(two.explained(VisitSort::other_master, 1, 1), 0.95);
  EXPECT_EQ(doubt_shares(two.stake(), two.draws).largest(), DoubtOf::master);
  EXPECT_EQ(doubt_shares(Two(2.0, 20.0, 1.0).stake(), Two(2.0, 20.0, 1.0).draws).largest(), DoubtOf::setting);
  EXPECT_EQ(doubt_shares(Two(1.0, 2.0, 9.0).stake(), Two(1.0, 2.0, 9.0).draws).largest(), DoubtOf::reading);
}

TEST(NextVisit, ReadsThePlaceThatTells) {
  const Two two(2.0, 5.0, 3.0);
  const auto steps = plan_visit({VisitSort::fresh_setting, 1, 2}, two.draws, two.own, {two.stake()}, {1.0});
  EXPECT_EQ(steps.front().cell, 0U);
  const auto places = places_of(plan_visit({VisitSort::same_setting, 1, 3}, two.draws, two.own, {two.stake()}, {1.0}), 3);
  EXPECT_EQ(places.front().cell, 0U);
  std::size_t readings = 0;
  for (const PlaceToRead& each : places) readings += each.times;
  EXPECT_EQ(readings, 3U);
}

TEST(NextVisit, TimeIsWorkAndWaiting) {
  const VisitMinutes minutes;
  EXPECT_NEAR(minutes_of({VisitSort::same_setting, 1, 6}, 4, minutes), 1.2, 1e-12);
  EXPECT_NEAR(minutes_of({VisitSort::fresh_setting, 2, 6}, 4, minutes), 7.2, 1e-12);
  EXPECT_NEAR(minutes_of({VisitSort::other_master, 1, 6}, 1, minutes), 11.3, 1e-12);
  EXPECT_NEAR(minutes_of({VisitSort::rested, 1, 6}, 1, minutes), 63.3, 1e-12);
}

}  // namespace
}  // namespace fettle
