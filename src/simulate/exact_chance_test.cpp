#include "simulate/exact_chance.h"

#include <gtest/gtest.h>

#include <cmath>

#include "catalogue/catalogue.h"
#include "gauging/sizes.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

SizeSet sizes_of(const SimulatedEngine& engine) {
  std::vector<PartOnBench> parts;
  const Kind* kind = catalogue().kind("cylinder-bore");
  for (const auto& kept : engine.job.parts) {
    parts.push_back({kept.value, kind->feature, engine.job.layouts.front().value.layout, catalogue().material(kind->material)->expansion_per_celsius,
                     kind->wear});
  }
  Gauged gauged = sizes_from({parts, engine.job.gauges, engine.job.settings, engine.job.readings, catalogue().gauge_presets,
                              catalogue().temperature, catalogue().material("steel")->expansion_per_celsius});
  EXPECT_TRUE(gauged.problems.empty());
  return std::move(gauged.set);
}

TEST(ExactChance, AgreesWithManyMorePoints) {
  double squares = 0.0;
  double count = 0.0;
  for (const char* id : {"exp", "fixed-ovality", "step-unknown"}) {
    const EngineFamily& family = *find_family(built_in_families(), id);
    for (std::uint64_t number = 0; number < 12; ++number) {
      const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), "mid"), 3, number);
      const SizeSet sizes = sizes_of(engine);
      const double off = exact_chance(family, engine, sizes) - exact_chance(family, engine, sizes, 5000);
      squares += off * off;
      count += 1.0;
    }
  }
  EXPECT_LE(std::sqrt(squares / count), 0.015);
}

// The posterior of the family's own law must be calibrated by itself; the mean of p and the share of good engines over 400 of them.
TEST(ExactChance, IsRightOnTheAverage) {
  const EngineFamily& family = *find_family(built_in_families(), "exp");
  const TruthJudge truth(family);
  double stated = 0.0;
  double good = 0.0;
  double variance = 0.0;
  for (std::uint64_t number = 0; number < 400; ++number) {
    const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), "coarse"), 9, number);
    const double chance = exact_chance(family, engine, sizes_of(engine));
    stated += chance;
    good += truth.keeps(engine.truth) ? 1.0 : 0.0;
    variance += chance * (1.0 - chance);
  }
  EXPECT_LE(std::abs(stated - good), 3.0 * std::sqrt(variance));
  EXPECT_LT(variance, 400.0 * 0.15);  // and it decides most of them
}

}  // namespace
}  // namespace fettle
