// Parts that stand together or apart, and what kinds tell each other: the shape estimate of groups.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "catalogue/catalogue.h"
#include "form/bench_by_hand.h"
#include "form/shape_said.h"
#include "simulate/hand.h"
#include "text/sentence.h"
#include "verdict/judge.h"

namespace fettle {
namespace {

using namespace bench_by_hand;

TEST(ShapeEstimate, ABoreUnlikeItsGroupLeavesItAndItIsSaid) {
  Bench bench = bores({40.0, 30.0, 50.0, 45.0});
  for (std::size_t c = 0; c < 8; ++c) bench.set.sizes[16 + c].estimate += 0.060;  // bore 3
  const auto groups = bench.estimate();
  ASSERT_EQ(groups.size(), 2U);
  EXPECT_EQ(shape(groups, 0).parts, (std::vector<std::string>{"bore-1", "bore-2", "bore-4"}));
  EXPECT_TRUE(said(groups[0].said, "shape.without_part"));
  EXPECT_EQ(shape(groups, 1).parts, std::vector<std::string>{"bore-3"});
  EXPECT_TRUE(said(groups[1].said, "shape.part_apart"));
  // It stands at its own size, says so, and the others do not follow it.
  EXPECT_GT(shape(groups, 1).not_standard, 0.5);
  EXPECT_LT(shape(groups, 0).not_standard, 0.1);
  EXPECT_TRUE(said(shape_said(shape(groups, 1), bore_layout(), UnitId::millimetre), "shape.not_standard"));
  const auto without = bores({40.0, 30.0, 50.0, 45.0}).estimate();
  EXPECT_NEAR(mean_um(shape(groups, 1), 0, 6), mean_um(shape(without), 2, 6) + 60.0, 6.0);
  for (std::size_t c = 0; c < 8; ++c) EXPECT_NEAR(mean_um(shape(groups), 0, c), mean_um(shape(without), 0, c), 3.0) << c;
}

TEST(ShapeEstimate, PartsReadUnderSettingsOfTheirOwnShareNothingAndSaySo) {
  Bench bench = bores({40.0, 30.0, 50.0});
  for (std::size_t p = 0; p < 3; ++p) {
    const std::size_t setting = bench.source("finding-zero", ErrorScope::setting, 4.5);
    for (std::size_t c = 0; c < 8; ++c) bench.set.sizes[p * 8 + c].terms.front().source = setting;
  }
  const auto said_of = [](const Bench& of) { return shape_said(shape(of.estimate()), bore_layout(), UnitId::millimetre); };
  EXPECT_TRUE(said(said_of(bench), "shape.shift_own"));
  EXPECT_FALSE(said(said_of(bench), "shape.shift_none"));
  EXPECT_FALSE(said(said_of(bores({40.0, 30.0, 50.0})), "shape.shift_own"));
}

// Where the size is in doubt, one sentence says what is laid to the gauge and what to the size, and names no figure that is not there.
TEST(ShapeEstimate, WhatAllReadingsShareIsSaidInOneSentence) {
  for (const double added : {0.0, 12.0, 30.0}) {
    const auto said = shape_said(shape(bores({40.0, 30.0, 50.0}, {.added_um = added}).estimate()), bore_layout(), UnitId::millimetre);
    ASSERT_EQ(said.size(), 1U) << added;
    EXPECT_EQ(said.front().key == "shape.not_standard", added > 20.0) << said.front().key;
    EXPECT_EQ(sentence(said.front(), Language::english).find('{'), std::string::npos);
  }
  Bench own = bores({40.0, 30.0, 50.0}, {.added_um = 40.0});
  for (std::size_t p = 0; p < 3; ++p) {
    const std::size_t setting = own.source("finding-zero", ErrorScope::setting, 4.5);
    for (std::size_t c = 0; c < 8; ++c) own.set.sizes[p * 8 + c].terms.front().source = setting;
  }
  const auto said = shape_said(shape(own.estimate()), bore_layout(), UnitId::millimetre);
  ASSERT_EQ(said.size(), 1U);
  EXPECT_EQ(said.front().key, "shape.not_standard_own");
}

// Nothing says what the parts were made to, so the level says nothing of the gauge: sd 20 and 50 µm of making against 4.5.
TEST(ShapeEstimate, WithoutATolerance) {
  for (const double added : {0.0, 12.0, -12.0}) {
    const auto groups = bores({40.0, 30.0, 50.0}, {.added_um = added}).estimate({});
    EXPECT_LT(std::abs(shape(groups).setting.mean_um), 0.5) << added;
    EXPECT_EQ(shape(groups).not_standard, 0.0);
    EXPECT_TRUE(said(shape_said(shape(groups), bore_layout(), UnitId::millimetre), "shape.level_unknown"));
  }
}

TEST(ShapeEstimate, AnUnknownStepAtAQuarterMillimetreIsNoNonsense) {
  Bench bench = bores({40.0, 30.0, 50.0}, {.added_um = 250.0});
  for (PartOnBench& part : bench.parts) part.part.step.kind = StepKind::unknown;
  const auto groups = bench.estimate();
  const auto as_is = bores({40.0, 30.0, 50.0}).estimate();
  for (std::size_t b = 0; b < 3; ++b) {
    for (std::size_t c = 0; c < 8; ++c) EXPECT_NEAR(mean_um(shape(groups), b, c), mean_um(shape(as_is), b, c) + 250.0, 4.0) << b << c;
  }
  EXPECT_LT(std::abs(shape(groups).setting.mean_um), 0.5);
  EXPECT_LT(std::abs(shape(groups).as_made.mean_um), 25.0);  // from the size that was found, not from the standard
  EXPECT_TRUE(shape(groups).suspects.empty());
}

/// Bores and crankpins that one micrometer set; the pins are even, of `level_um` as they are read.
Bench two_kinds(double level_um) {
  Bench bench = bores({40.0, 30.0, 50.0}, {.setting_um = 2.0});
  const std::size_t master = bench.source("limit-of-error", ErrorScope::master, 5.0);
  for (Size& size : bench.set.sizes) size.terms.push_back({master, 1.0});
  const std::size_t setting = bench.source("finding-zero", ErrorScope::setting, 2.0);
  for (const char* id : {"pin-1", "pin-2", "pin-3", "pin-4"}) {
    bench.add_part(id, "crankpin", Feature::outside, WearPattern::even);
    for (std::size_t c = 0; c < 6; ++c) bench.read(id, c, level_um, {master, setting});
  }
  for (Size& size : bench.set.sizes) {
    std::sort(size.terms.begin(), size.terms.end(), [](const auto& a, const auto& b) { return a.source < b.source; });
  }
  return bench;
}

std::map<std::string, MadeTo> both_made() {
  auto out = kMade;
  out["crankpin"] = out["cylinder-bore"];
  return out;
}

// Pins do not grow: pins that read large have had a gauge that reads large, and it read the bores large as well.
TEST(ShapeEstimate, KindsThatShareAMasterHearEachOther) {
  const auto small = two_kinds(-8.0).estimate(both_made());
  const auto even = two_kinds(0.0).estimate(both_made());
  const auto large = two_kinds(8.0).estimate(both_made());
  EXPECT_GT(shape(large).setting.mean_um, shape(even).setting.mean_um + 0.8);
  EXPECT_LT(mean_um(shape(large), 0, 0), mean_um(shape(even), 0, 0) - 0.8);
  // Small ones may be worn, so less is heard of them.
  EXPECT_LE(shape(small).setting.mean_um, shape(even).setting.mean_um + 0.1);
  Bench alone = two_kinds(8.0);
  alone.parts.resize(3);
  const auto unheard = alone.estimate();
  EXPECT_LT(shape(large).setting.sd_um, shape(unheard).setting.sd_um - 0.1);
  // The same word in both kinds: what pins and bores lay to the gauge, seen from the side of wear, has opposite signs.
  EXPECT_GT(shape(large, 0).setting.mean_um, 0.0);
  EXPECT_LT(shape(large, 1).setting.mean_um, 0.0);
}

TEST(ShapeEstimate, AShaftIsTheMirrorOfABore) {
  Bench inside;
  Bench outside;
  Generator generator(5, 9);
  for (Bench* bench : {&inside, &outside}) bench->source("finding-zero", ErrorScope::setting, 4.5);
  for (const char* id : {"a", "b", "c"}) {
    inside.add_part(id, "journal", Feature::inside, WearPattern::even);
    outside.add_part(id, "journal", Feature::outside, WearPattern::even);
    for (std::size_t c = 0; c < 8; ++c) {
      const double um = (c < 6 ? 25.0 : 0.0) + 6.0 * generator.normal();
      inside.read(id, c, um, {0});
      outside.read(id, c, -um, {0});
    }
  }
  const std::map<std::string, MadeTo> made = {{"journal", kMade.begin()->second}};
  const auto bore = inside.estimate(made);
  const auto shaft = outside.estimate(made);
  ASSERT_EQ(shape(bore).nodes.size(), shape(shaft).nodes.size());
  EXPECT_NEAR(shape(bore).setting.mean_um, shape(shaft).setting.mean_um, 1e-6);  // both counted in the direction of wear
  EXPECT_NEAR(shape(bore).not_standard, shape(shaft).not_standard, 1e-9);
  for (std::size_t b = 0; b < 3; ++b) {
    for (std::size_t c = 0; c < 8; ++c) {
      EXPECT_NEAR(mean_um(shape(bore), b, c), -mean_um(shape(shaft), b, c), 1e-6) << b << c;
      EXPECT_NEAR(place_posterior(shape(bore), b, c).sd_mm, place_posterior(shape(shaft), b, c).sd_mm, 1e-9) << b << c;
    }
  }
}

/// The bores judged against wide limits, so that what was read is within.
Judgement judged(const Bench& bench, const std::vector<GroupEstimate>& groups) {
  std::vector<Kept<Limit>> limits;
  const std::vector<std::pair<std::string, std::int64_t>> bounds = {{"size-1", 842'500'000}, {"oor-1", 1'500'000}, {"tap-2", 2'000'000}};
  for (const auto& [definition, counts] : bounds) {
    limits.push_back({definition, Limit{definition, "cylinder-bore", definition, LimitRole::service, LimitSide::at_most,
                                        typed_length(Length::counts(counts), 3), std::nullopt, typed_length(Length::counts(840'000'000), 3),
                                        {"invented", "", "1", "", false, false}}});
  }
  Accuracy accuracy = usual_accuracy();
  accuracy.draws = 0;
  return judge({bench.parts, groups, limits, {}, catalogue().definitions, usual_rule(), accuracy});
}

// Any subset of the plan, places read twice and under two settings: an estimate that is finite, and never "within" over an unread place.
TEST(ShapeEstimate, GapsRepeatsAndSettingsNeverPassAnUnreadPlace) {
  Generator generator(77, 1);
  std::size_t within = 0;
  std::size_t refused = 0;
  for (int round = 0; round < 12; ++round) {
    const Bench full = bores({40.0, 30.0, 50.0});
    Bench bench = full;
    bench.set.sizes.clear();
    const std::size_t second = bench.source("finding-zero", ErrorScope::setting, 4.5);
    const double kept = round == 0 ? 1.0 : round == 1 ? 0.06 : 0.97 - 0.06 * round;
    for (const Size& size : full.set.sizes) {
      if (generator.uniform() > kept) continue;
      bench.set.sizes.push_back(size);
      if (generator.uniform() < 0.3) bench.read(size.part, size.cell, 1000.0 * (size.estimate - kMiddleMm) + 3.0 * generator.normal(), {0});
      if (generator.uniform() < 0.3) {
        bench.read(size.part, size.cell, 1000.0 * (size.estimate - kMiddleMm) + 3.0 * generator.normal(), {second});
        bench.set.sizes.back().setting = "set-2";
      }
    }
    const auto order = [](const Size& a, const Size& b) { return std::tie(a.part, a.cell, a.reading) < std::tie(b.part, b.cell, b.reading); };
    std::sort(bench.set.sizes.begin(), bench.set.sizes.end(), order);
    const auto groups = bench.estimate();
    const Judgement judgement = judged(bench, groups);
    for (const Verdict& verdict : judgement.verdicts) {
      std::vector<bool> read(8, false);
      for (const Size& size : bench.set.sizes) {
        if (size.part == verdict.part) read[size.cell] = true;
      }
      EXPECT_TRUE(!verdict.chance || (verdict.chance->value >= 0.0 && verdict.chance->value <= 1.0));
      EXPECT_TRUE(!verdict.best || (std::isfinite(verdict.best->median) && verdict.best->low <= verdict.best->high));
      // Counted places are the first six; the taper between the ends does not ask for the two in the middle.
      bool whole = true;
      for (std::size_t c = 0; c < 6; ++c) whole = whole && (read[c] || (verdict.limit == "tap-2" && (c == 2 || c == 3)));
      if (verdict.word == VerdictWord::within) {
        EXPECT_TRUE(whole) << round << verdict.part << verdict.limit;
        ++within;
      }
      refused += whole || verdict.word != VerdictWord::not_judged ? 0U : 1U;
    }
  }
  EXPECT_GT(within, 9U);
  EXPECT_GT(refused, 30U);
}

}  // namespace
}  // namespace fettle
