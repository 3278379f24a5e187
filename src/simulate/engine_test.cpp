#include "simulate/engine.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "app/judge_job.h"
#include "catalogue/catalogue.h"
#include "simulate/families_file.h"

namespace fettle {
namespace {

const EngineFamily& family(const std::string& id) {
  const EngineFamily* found = find_family(built_in_families(), id);
  FETTLE_ASSERT(found != nullptr, id);
  return *found;
}
const Hand& hand(const std::string& id) {
  const Hand* found = find_hand(built_in_hands(), id);
  FETTLE_ASSERT(found != nullptr, id);
  return *found;
}

SizeSet sizes_of(const SimulatedEngine& engine) {
  std::vector<PartOnBench> parts;
  const Kind* kind = catalogue().kind(kSimulatedKind);
  for (const auto& part : engine.job.parts) {
    parts.push_back({part.value, kind->feature, engine.job.layouts.front().value.layout,
                     catalogue().material(kind->material)->expansion_per_celsius});
  }
  const Gauged gauged =
      sizes_from({parts, engine.job.gauges, engine.job.settings, engine.job.readings, {}, catalogue().gauge_presets,
                  catalogue().temperature, catalogue().material("steel")->expansion_per_celsius});
  EXPECT_TRUE(gauged.problems.empty()) << gauged.problems.front().code;
  return gauged.set;
}

/// µm² that two sizes have in common by what the job states.
double stated_covariance(const SizeSet& set, const Size& a, const Size& b) {
  double out = 0.0;
  for (const ErrorTerm& one : a.terms) {
    for (const ErrorTerm& other : b.terms) {
      if (one.source != other.source) continue;
      const double u = set.sources[one.source].standard_uncertainty * 1e3;
      out += one.coefficient * other.coefficient * u * u;
    }
  }
  return out;
}

/// ± 0.5 °C of a thermometer on grey iron of 84 mm, µm²: (84 000 · 10.8e-6 · 0.5)² / 3.
constexpr double kThermometer = 0.0686;

TEST(Engine, TheJobStatesTheHandsOwnErrors) {
  for (const char* id : {"good", "mid", "coarse", "mid-own-micrometer", "mid-set-twice", "mid-twice"}) {
    const Hand& reader = hand(id);
    const SizeSet set = sizes_of(simulate_engine(family("exp"), reader, 1, 0));
    ASSERT_EQ(set.sizes.size(), 24 * reader.repeats * reader.settings) << id;
    const double step_um = reader.division.millimetres() * 1e3;
    const double setting = reader.setting_sd_um * reader.setting_sd_um;
    const double master = reader.master_sd_um * reader.master_sd_um;
    const double alone = reader.repeat_sd_um * reader.repeat_sd_um + step_um * step_um / 12.0;
    for (const Size& a : set.sizes) {
      for (const Size& b : set.sizes) {
        // The thermometer is one for each round, and each setting has its own round.
        double expected = master + (a.setting == b.setting ? setting + kThermometer : 0.0);
        if (a.reading == b.reading) expected += alone;
        // Repeats speak for themselves: 24 of them move the stated repeatability by about a quarter of its variance (4 standard errors).
        const bool learned = reader.repeats > 1 && a.reading == b.reading;
        ASSERT_NEAR(stated_covariance(set, a, b), expected, learned ? 18.0 : 2e-3) << id;
      }
    }
  }
}

TEST(Engine, ErrorsAreWhatTheJobStatesInTrials) {
  // Sizes against the truth over 2500 engines. What all places of an engine have in common shows in their mean, what
  // each has of its own in the scatter about it; three standard errors of each variance.
  constexpr std::uint64_t kEngines = 2500;
  constexpr double kCount = static_cast<double>(kEngines);
  for (const char* id : {"good", "mid", "coarse", "mid-own-micrometer", "mid-no-thermometer"}) {
    double mean = 0.0;
    double square_of_mean = 0.0;
    double scatter = 0.0;
    SizeSet set;
    for (std::uint64_t number = 0; number < kEngines; ++number) {
      const SimulatedEngine engine = simulate_engine(family("exp"), hand(id), 5, number);
      set = sizes_of(engine);
      std::vector<double> off_um;
      double sum = 0.0;
      for (std::size_t i = 0; i < set.sizes.size(); ++i) {
        off_um.push_back((set.sizes[i].estimate - engine.truth.sizes_mm[i / 6][set.sizes[i].cell]) * 1e3);
        sum += off_um.back();
      }
      sum /= 24.0;
      mean += sum / kCount;
      square_of_mean += sum * sum / kCount;
      for (const double off : off_um) scatter += (off - sum) * (off - sum) / (23.0 * kCount);
    }
    const double common = stated_covariance(set, set.sizes.front(), set.sizes.back());
    const double alone = stated_covariance(set, set.sizes.front(), set.sizes.front()) - common;
    const double of_mean = common + alone / 24.0;
    EXPECT_NEAR(mean, 0.0, 3.0 * std::sqrt(of_mean / kCount)) << id;
    EXPECT_NEAR(square_of_mean / of_mean, 1.0, 3.0 * std::sqrt(2.0 / kCount)) << id;
    EXPECT_NEAR(scatter / alone, 1.0, 3.0 * std::sqrt(2.0 / (23.0 * kCount))) << id;
  }
}

TEST(Engine, AMovingZeroIsSeenAndCoveredByItsDoubt) {
  // The closing zero is a reading with its own repeatability, which the record takes as exact: the stated variance is
  // not exact here.
  constexpr std::uint64_t kEngines = 2000;
  double square = 0.0;
  double variance = 0.0;
  int moved = 0;
  for (std::uint64_t number = 0; number < kEngines; ++number) {
    const SimulatedEngine engine = simulate_engine(family("exp"), hand("mid-drifting"), 5, number);
    const auto& closing = engine.job.settings.front().value.closing_zero;
    ASSERT_TRUE(closing.has_value());
    moved += closing->quantity.value.sign() != 0 ? 1 : 0;
    const SizeSet set = sizes_of(engine);
    const Size& size = set.sizes[set.sizes.size() / 2];
    const double off = (size.estimate - engine.truth.sizes_mm[2][size.cell]) * 1e3;
    square += off * off;
    variance += stated_covariance(set, size, size);
  }
  EXPECT_GT(moved, 1000);
  EXPECT_NEAR(square / variance, 1.0, 0.25);
}

TEST(Engine, TheZeroDriftsOrIsKnockedOneAsOftenAsTheOther) {
  Hand steady = hand("mid-drifting");
  steady.setting_sd_um = steady.repeat_sd_um = 0.0;
  steady.division = Length::counts(1000);  // 0.1 µm
  int drifts = 0;
  for (std::uint64_t number = 0; number < 400; ++number) {
    const SimulatedEngine engine = simulate_engine(family("exp"), steady, 6, number);
    const double end_um = -0.1 * engine.job.settings.front().value.closing_zero->quantity.value.to_double();
    // Readings in the order they were taken; ± 0.5 °C are ± 0.46 µm, the same for all; rounding ± 0.05 µm each.
    std::vector<double> off_um;
    for (std::size_t k = 0; k < 24; ++k) {
      const double shown_um = -0.1 * engine.job.readings[k].value.quantity.quantity.value.to_double();
      off_um.push_back(shown_um - (engine.truth.sizes_mm[k / 6][k % 6] - 84.0) * 1e3);
    }
    EXPECT_NEAR(off_um.back(), end_um, 0.6);
    const double half_way = off_um[11] - off_um.back() + end_um;
    if (std::fabs(end_um) > 1.0) drifts += std::fabs(half_way - end_um / 2.0) < 0.3 ? 1 : 0;
  }
  EXPECT_GT(drifts, 130);
  EXPECT_LT(drifts, 210);
}

TEST(Engine, AnUntoldSlipIsInTheReadingsAndNotInTheJob) {
  constexpr std::uint64_t kEngines = 1000;
  double mean = 0.0;
  for (std::uint64_t number = 0; number < kEngines; ++number) {
    const SimulatedEngine engine = simulate_engine(family("size-binding-slip"), hand("mid"), 2, number);
    const SizeSet set = sizes_of(engine);
    mean += (set.sizes[0].estimate - engine.truth.sizes_mm[0][set.sizes[0].cell]) * 1e3;
  }
  EXPECT_NEAR(mean / kEngines, -12.7, 4.0 * 6.6 / std::sqrt(1000.0));
}

TEST(Engine, TheSameSeedGivesTheSameEngineWhateverElseIsMade) {
  const SimulatedEngine alone = simulate_engine(family("bell"), hand("mid"), 9, 17);
  for (std::uint64_t number = 0; number < 17; ++number) (void)simulate_engine(family("bell"), hand("mid"), 9, number);
  const SimulatedEngine after = simulate_engine(family("bell"), hand("mid"), 9, 17);
  EXPECT_EQ(alone.job.readings, after.job.readings);
  EXPECT_EQ(alone.job.settings, after.job.settings);
  EXPECT_EQ(alone.truth.sizes_mm, after.truth.sizes_mm);
  EXPECT_NE(alone.job.readings, simulate_engine(family("bell"), hand("mid"), 9, 18).job.readings);
}

TEST(Engine, TheTruthDoesNotDependOnTheHand) {
  EXPECT_EQ(simulate_engine(family("exp"), hand("good"), 1, 3).truth.sizes_mm,
            simulate_engine(family("exp"), hand("coarse"), 1, 3).truth.sizes_mm);
}

TEST(Engine, BytesOfOneEngineOnEveryMachine) {
  // Written down from the first run: another machine, compiler or order of summation must not change it.
  std::string all;
  for (const auto& reading : simulate_engine(family("exp"), hand("mid"), 1, 0).job.readings)
    all += reading.value.quantity.text + " ";
  EXPECT_EQ(all,
            "12 acw 8 acw 7 acw 4 acw 4 acw 3 acw 7 acw 6 acw 5 acw 4 acw 3 acw 3 acw "
            "9 acw 5 acw 5 acw 3 acw 1 acw 2 acw 11 acw 8 acw 7 acw 5 acw 4 acw 4 acw ");
}

TEST(Engine, UnreadPlacesAreNotRead) {
  const SimulatedEngine engine = simulate_engine(family("few-one-direction"), hand("mid"), 1, 0);
  EXPECT_EQ(engine.job.readings.size(), 8U);
  for (const auto& reading : engine.job.readings) {
    EXPECT_NE(reading.value.station, "mid");
    EXPECT_EQ(reading.value.direction, "thrust");
  }
  EXPECT_EQ(engine.truth.sizes_mm.front().size(), 6U);
  EXPECT_EQ(simulate_engine(family("few-one-bore"), hand("mid"), 1, 0).job.parts.size(), 1U);
}

TEST(Engine, WhatIsNotToldStandsNowhereInTheJob) {
  EXPECT_EQ(simulate_engine(family("size-binding-unknown-tolerance"), hand("mid"), 1, 0).job.limits.size(), 3U);
  EXPECT_EQ(simulate_engine(family("size-binding"), hand("mid"), 1, 0).job.limits.size(), 5U);
  for (const auto& part : simulate_engine(family("step-unknown"), hand("mid"), 1, 0).job.parts)
    EXPECT_EQ(part.value.step.kind, StepKind::unknown);
}

TEST(Engine, EveryFamilyAndHandCanBeJudged) {
  const auto judge = [](const EngineFamily& of, const Hand& by) {
    const Result<JudgedJob> judged = judge_job(simulate_engine(of, by, 1, 0).job, {{}, usual_accuracy()});
    ASSERT_TRUE(judged.ok()) << of.id << " " << by.id << " " << judged.problems().front().code;
    EXPECT_EQ(judged.value().judgement.states.size(), of.parts);
    EXPECT_FALSE(judged.value().judgement.verdicts.empty());
  };
  for (const EngineFamily& each : built_in_families()) judge(each, hand("mid"));
  for (const Hand& each : built_in_hands()) judge(family("exp"), each);
}

}  // namespace
}  // namespace fettle
