#include "form/group_draws.h"

#include <gtest/gtest.h>

#include <cmath>

#include "form/bench_by_hand.h"

namespace fettle {
namespace {

using namespace bench_by_hand;

struct DrawMoments {
  double mean = 0.0;
  double sd = 0.0;
};

DrawMoments moments_over(const std::vector<double>& draws) {
  DrawMoments out;
  for (const double each : draws) out.mean += each / static_cast<double>(draws.size());
  for (const double each : draws) out.sd += (each - out.mean) * (each - out.mean) / static_cast<double>(draws.size());
  out.sd = std::sqrt(out.sd);
  return out;
}

std::vector<std::string> ids_on(const Bench& bench) {
  std::vector<std::string> out;
  for (const PartOnBench& each : bench.parts) out.push_back(each.part.id);
  return out;
}

TEST(GroupDraws, HaveTheEstimatesOfTheirGroup) {
  const Bench bench = bores({40.0, 30.0, 50.0}, {.added_um = 6.0});
  const auto groups = bench.estimate();
  const ShapeGroup& group = *groups.front().shape;
  const GroupDraws draws = draw_group(group, sizes_of(bench.set, ids_on(bench)), 4096, 1);
  for (std::size_t b = 0; b < group.parts.size(); ++b) {
    for (std::size_t c = 0; c < 8; ++c) {
      const PlacePosterior expected = place_posterior(group, b, c);
      const DrawMoments got = moments_over(draws.places[b][c]);
      EXPECT_NEAR(group.origin.to_mm(got.mean), expected.mean_mm, 0.0003) << b << " " << c;
      EXPECT_NEAR(got.sd, expected.sd_mm * 1000.0, 0.06 * expected.sd_mm * 1000.0 + 0.05) << b << " " << c;
    }
  }
}

// The error of the setting is in them, and what the places have of it: a reading is place + setting + its own.
TEST(GroupDraws, PlacesAndTheErrorOfTheSettingHoldTogether) {
  const Bench bench = bores({40.0, 30.0, 50.0}, {.setting_um = 8.0, .added_um = 6.0});
  const auto groups = bench.estimate();
  const ShapeGroup& group = *groups.front().shape;
  const SizeSet own = sizes_of(bench.set, ids_on(bench));
  const GroupDraws draws = draw_group(group, own, 4096, 1);
  std::size_t setting = own.sources.size();
  for (std::size_t s = 0; s < own.sources.size(); ++s) {
    if (own.sources[s].scope == ErrorScope::setting) setting = s;
  }
  ASSERT_LT(setting, own.sources.size());
  const DrawMoments error = moments_over(draws.errors[setting]);
  EXPECT_NEAR(8.0 * error.mean, group.setting.mean_um, 0.5);
  EXPECT_NEAR(8.0 * error.sd, group.setting.sd_um, 0.4);
  // Together they are known to what a reading has of its own; apart each is known less well.
  std::vector<double> sum = draws.places[0][0];
  for (std::size_t d = 0; d < sum.size(); ++d) sum[d] += 8.0 * draws.errors[setting][d];
  EXPECT_LT(moments_over(sum).sd, moments_over(draws.places[0][0]).sd);
  EXPECT_LT(moments_over(sum).sd, 3.2);
}

TEST(GroupDraws, OfPlainGroupsScatterAsTheirReadings) {
  Bench bench;
  const std::size_t setting = bench.source("finding-zero", ErrorScope::setting, 4.0);
  bench.add_part("pin-1", "piston-pin", Feature::outside, WearPattern::none);
  bench.read("pin-1", 2, -7.0, {setting}, 3.0);
  const GroupEstimate plain = plain_estimate("piston-pin", bench.parts, bench.set);
  const GroupDraws draws = draw_group(plain, 4096, 1);
  const DrawMoments got = moments_over(draws.places[0][2]);
  EXPECT_NEAR(got.mean, kMiddleMm * 1000.0 - 7.0, 0.2);
  EXPECT_NEAR(got.sd, std::sqrt(16.0 + 9.0 + 1.0 / 12.0), 0.15);
  EXPECT_TRUE(draws.places[0][0].empty());
}

}  // namespace
}  // namespace fettle
