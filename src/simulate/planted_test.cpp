#include "simulate/planted.h"

#include <gtest/gtest.h>

#include <cmath>

#include "simulate/families_file.h"
#include "simulate/mistake_rates.h"

namespace fettle {
namespace {

/// The readings that differ, with by how many divisions clockwise.
std::vector<std::pair<std::size_t, double>> spoiled_readings(const SimulatedEngine& honest, const SimulatedEngine& spoiled) {
  std::vector<std::pair<std::size_t, double>> out;
  for (std::size_t k = 0; k < honest.job.readings.size(); ++k) {
    const Ratio apart = spoiled.job.readings[k].value.quantity.quantity.value - honest.job.readings[k].value.quantity.quantity.value;
    if (apart.sign() != 0) out.emplace_back(k, apart.to_double());
  }
  return out;
}

TEST(Planted, SpoilsTheReadingsThatItSaysByWhatItSays) {
  const EngineFamily& family = *find_family(built_in_families(), "exp");
  const Hand& hand = *find_hand(built_in_hands(), "mid");
  for (const auto& [word, kind] : kPlantedKinds) {
    std::size_t planted_in = 0;
    for (std::uint64_t number = 0; number < 20; ++number) {
      const SimulatedEngine honest = simulate_engine(family, hand, 5, number);
      SimulatedEngine spoiled = honest;
      const auto planted = plant(spoiled, family, kind);
      const auto differ = spoiled_readings(honest, spoiled);
      ASSERT_EQ(planted.has_value(), !differ.empty()) << word;
      if (!planted) continue;
      ++planted_in;
      ASSERT_EQ(planted->readings.size(), differ.size()) << word;
      for (std::size_t i = 0; i < differ.size(); ++i) EXPECT_EQ(planted->readings[i], differ[i].first) << word;
      EXPECT_NEAR(std::abs(planted->off_um), std::abs(differ.front().second) * 5.0, 1e-9) << word;
      if (kind == PlantedKind::off_25) {
        EXPECT_NEAR(std::abs(planted->off_um), 25.0, 1e-9);
      }
      if (kind == PlantedKind::thimble_turn) {
        EXPECT_NEAR(std::abs(planted->off_um), 500.0, 1e-9);
      }
      if (kind == PlantedKind::axes) {
        EXPECT_EQ(honest.job.readings[differ[0].first].value.station, honest.job.readings[differ[1].first].value.station);
        EXPECT_EQ(differ[0].second, -differ[1].second);
      }
    }
    EXPECT_GT(planted_in, 10U) << word;
  }
}

TEST(Planted, RatesAddUp) {
  const MistakeRates one{"exp", "mid", 1, 24, 1, 0, {{PlantedKind::off_15, 1, 1, 0, 1, 2, 23}}};
  const MistakeRecord record{1, 2, 0.2, {one, one, {"exp", "good", 1, 24, 0, 0, {{PlantedKind::off_15, 1, 0, 0, 0, 0, 23}}}}, false};
  const auto all = over_families(record);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all.front().honest, 48U);
  EXPECT_EQ(all.front().falsely, 2U);
  EXPECT_EQ(all.front().kinds.front(), (KindFound{PlantedKind::off_15, 2, 2, 0, 2, 4, 46}));
  EXPECT_EQ(all.back().kinds.front().asked, 0U);
}

TEST(Planted, AMistakeIsNamedRightlyOrNot) {
  EXPECT_TRUE(names_rightly({PlantedKind::off_25, {1}, 25.0}, "anything-else"));
  EXPECT_TRUE(names_rightly({PlantedKind::off_25, {1}, 25.0}, "not-rocked"));
  EXPECT_FALSE(names_rightly({PlantedKind::off_25, {1}, 25.0}, "needle-side"));
  EXPECT_TRUE(names_rightly({PlantedKind::needle_side, {1}, 25.0}, "needle-side"));
  EXPECT_FALSE(names_rightly({PlantedKind::needle_side, {1}, 25.0}, "anything-else"));
  EXPECT_TRUE(names_rightly({PlantedKind::axes, {1, 2}, 25.0}, "axes-exchanged"));
  EXPECT_FALSE(names_rightly({PlantedKind::heights, {1, 2}, 25.0}, "axes-exchanged"));
}

}  // namespace
}  // namespace fettle
