#include "simulate/truth.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "simulate/families_file.h"

namespace fettle {
namespace {

const EngineFamily& family(const std::string& id) {
  const EngineFamily* found = find_family(built_in_families(), id);
  FETTLE_ASSERT(found != nullptr, id);
  return *found;
}

/// Every span at its low end, so that only the Gaussian part is left to chance.
EngineFamily without_spans(EngineFamily out) {
  for (Component& each : out.components) {
    each.amount.low = each.amount.high;
    each.length.low = each.length.high;
    each.likeness.low = each.likeness.high;
  }
  return out;
}

TEST(Truth, AboutHalfOfTheEnginesKeepTheirLimits) {
  constexpr int kEngines = 2000;
  for (const EngineFamily& each : built_in_families()) {
    const TruthJudge judge(each);
    int good = 0;
    for (int number = 0; number < kEngines; ++number)
      good += judge.keeps(draw_truth(each, 1, static_cast<std::uint64_t>(number))) ? 1 : 0;
    const double share = static_cast<double>(good) / kEngines;
    if (each.id == "new") {
      EXPECT_EQ(good, kEngines);
      continue;
    }
    EXPECT_GT(share, 0.3) << each.id;
    EXPECT_LT(share, 0.7) << each.id;
  }
}

TEST(Truth, JudgedByTheProgramsOwnDefinitions) {
  const TruthJudge judge(family("exp"));
  EngineTruth truth{{0.0, {}}, {{84.090, 84.070, 84.060, 84.050, 84.035, 84.030}}, {}, 0.0};
  EXPECT_NEAR(judge.value(truth, 0, 0), 84.090, 1e-9);  // largest
  EXPECT_NEAR(judge.value(truth, 0, 1), 0.020, 1e-9);   // top: 84.090 - 84.070
  EXPECT_NEAR(judge.value(truth, 0, 2), 0.055, 1e-9);   // thrust: 84.090 - 84.035
  EXPECT_TRUE(judge.keeps(truth));
  truth.sizes_mm[0][1] = 84.055;  // 35 µm out of round
  EXPECT_FALSE(judge.keeps(truth));
  EXPECT_FALSE(judge.part_keeps(truth, 0));
}

TEST(Truth, ASizeIsJudgedAtItsRealStep) {
  const TruthJudge judge(family("step-unknown"));
  EngineTruth truth{{250.0, {}}, {{84.340, 84.340, 84.330, 84.330, 84.320, 84.320}}, {}, 0.0};
  EXPECT_NEAR(judge.value(truth, 0, 0), 84.090, 1e-9);
  EXPECT_TRUE(judge.keeps(truth));
  truth.hyper.step_um = 0.0;
  EXPECT_FALSE(judge.keeps(truth));
}

TEST(Truth, OneEngineIsTheSameWhateverElseIsDrawn) {
  const EngineFamily& exp = family("exp");
  const EngineTruth alone = draw_truth(exp, 7, 41);
  for (std::uint64_t number = 0; number < 41; ++number) (void)draw_truth(exp, 7, number);
  const EngineTruth after = draw_truth(exp, 7, 41);
  EXPECT_EQ(alone.sizes_mm, after.sizes_mm);
  EXPECT_EQ(alone.hyper.components[0].amount_um, after.hyper.components[0].amount_um);
  EXPECT_NE(alone.sizes_mm, draw_truth(exp, 7, 42).sizes_mm);
  EXPECT_NE(alone.sizes_mm, draw_truth(exp, 8, 41).sizes_mm);
  EXPECT_NE(alone.sizes_mm, draw_truth(family("few-two-heights"), 7, 41).sizes_mm);
}

TEST(Truth, DrawsHaveTheMeanAndCovarianceThatAreStated) {
  // 20 000 engines: four standard errors of a mean or covariance of figures whose deviation is some 20 µm.
  constexpr std::uint64_t kEngines = 20'000;
  const EngineFamily fixed = without_spans(family("fixed-ovality"));
  ASSERT_EQ(hyper_dimensions(fixed), 0U);
  const ConditionalTruth given = conditional_truth(fixed, hyper_at(fixed, {}));
  const std::size_t cells = given.mean.size();
  std::vector<double> mean(cells, 0.0);
  Grid same{cells, cells, std::vector<double>(cells * cells, 0.0)};
  Grid other = same;
  for (std::uint64_t number = 0; number < kEngines; ++number) {
    const EngineTruth truth = draw_truth(fixed, 3, number);
    const auto off = [&](std::size_t part, std::size_t cell) {
      return (truth.sizes_mm[part][cell] - 84.0) * 1e3 - given.mean[cell];
    };
    for (std::size_t i = 0; i < cells; ++i) {
      mean[i] += off(1, i);
      for (std::size_t k = 0; k < cells; ++k) {
        same.at(i, k) += off(1, i) * off(1, k);
        other.at(i, k) += off(1, i) * off(2, k);
      }
    }
  }
  constexpr double kCount = static_cast<double>(kEngines);
  for (std::size_t i = 0; i < cells; ++i) {
    for (std::size_t k = 0; k < cells; ++k) {
      const double shared = given.shared.at(i, 0) * given.shared.at(k, 0);
      double own = 0.0;
      double own_i = 0.0;
      double own_k = 0.0;
      for (std::size_t c = 0; c < given.own.columns; ++c) {
        own += given.own.at(i, c) * given.own.at(k, c);
        own_i += given.own.at(i, c) * given.own.at(i, c);
        own_k += given.own.at(k, c) * given.own.at(k, c);
      }
      const double variance_i = own_i + given.shared.at(i, 0) * given.shared.at(i, 0);
      const double variance_k = own_k + given.shared.at(k, 0) * given.shared.at(k, 0);
      if (i == k) {
        EXPECT_NEAR(mean[i] / kCount, 0.0, 4.0 * std::sqrt(variance_i / kCount));
      }
      EXPECT_NEAR(same.at(i, k) / kCount, own + shared, 4.0 * std::sqrt(2.0 * variance_i * variance_k / kCount));
      EXPECT_NEAR(other.at(i, k) / kCount, shared, 4.0 * std::sqrt(2.0 * variance_i * variance_k / kCount));
    }
  }
}

TEST(Truth, MeanOfAHandReckonedFamily) {
  // linear, 60 µm, length 1, oval share 1/2: thrust = 10 + 60 f + 15 f, pin = 10 + 60 f - 15 f, f = 1, 1/2, 0.
  EngineFamily linear = without_spans(family("linear"));
  linear.components[0].amount = {60.0, 60.0};
  linear.components[0].length = {1.0, 1.0};
  linear.components[1].amount = {0.5, 0.5};
  const ConditionalTruth given = conditional_truth(linear, hyper_at(linear, {}));
  const std::vector<double> expected = {85.0, 55.0, 47.5, 32.5, 10.0, 10.0};
  for (std::size_t cell = 0; cell < expected.size(); ++cell) EXPECT_NEAR(given.mean[cell], expected[cell], 1e-12);
}

TEST(Truth, ProfilesAtPlacesThatAreEasyToReckon) {
  EXPECT_EQ(profile_at(Profile::even, 0.3, 0.0), 1.0);
  EXPECT_NEAR(profile_at(Profile::exponential, 0.5, 0.5), 0.36787944117144233, 1e-15);
  EXPECT_EQ(profile_at(Profile::linear, 2.0, 1.0), 0.0);
  EXPECT_EQ(profile_at(Profile::barrel, 0.5, 0.6), 1.0);
  EXPECT_EQ(profile_at(Profile::barrel, 0.0, 0.6), profile_at(Profile::barrel, 1.0, 0.6));
  EXPECT_EQ(profile_at(Profile::bell, 0.0, 0.3), 1.0);
  EXPECT_LT(profile_at(Profile::bell, 0.5, 0.2), profile_at(Profile::bell, 1.0, 0.2));
  EXPECT_EQ(profile_at(Profile::step, 0.5, 0.6), 1.0);
  EXPECT_LT(profile_at(Profile::step, 0.5, 0.4), 0.2);
}

TEST(Truth, TheFootDoesNotWear) {
  const EngineFamily& foot = family("unworn-foot");
  const ConditionalTruth given =
      conditional_truth(foot, hyper_at(foot, std::vector<double>(hyper_dimensions(foot), 0.9)));
  EXPECT_GT(given.mean[0], 40.0);
  EXPECT_EQ(given.mean[6], 10.0);
  EXPECT_EQ(given.mean[7], 10.0);
}

TEST(Truth, ThreeLobesChangeNoDiameter) {
  const EngineFamily& lobed = family("three-lobe");
  EngineFamily round = lobed;
  round.three_lobe_um = {0.0, 0.0};
  const EngineTruth truth = draw_truth(lobed, 1, 5);
  EXPECT_GE(truth.three_lobe_um, 20.0);
  EXPECT_EQ(truth.sizes_mm, draw_truth(round, 1, 5).sizes_mm);
}

TEST(Truth, AnOvalityAt45DegreesIsHiddenFromTwoAxes) {
  const EngineFamily turned = without_spans(family("ovality-turned"));
  const ConditionalTruth given = conditional_truth(turned, hyper_at(turned, {}));
  EXPECT_NEAR(given.mean[0], given.mean[2], 1e-12);
  EXPECT_GT(given.mean[1], given.mean[3] + 10.0);
}

TEST(Truth, TheOddPartStandsAtAnyPlace) {
  const EngineFamily& sleeve = family("one-sleeve");
  std::set<std::size_t> places;
  for (std::uint64_t number = 0; number < 50; ++number) places.insert(draw_truth(sleeve, 1, number).odd_part.value());
  EXPECT_EQ(places, (std::set<std::size_t>{0, 1, 2, 3}));
  EXPECT_FALSE(draw_truth(family("exp"), 1, 0).odd_part);
}

TEST(Truth, TheOddPartHasItsOwnLevelAndHardlyWear) {
  EngineFamily sleeve = without_spans(family("one-sleeve"));
  sleeve.as_made_common_um = sleeve.as_made_own_um = sleeve.texture_um = 0.0;
  sleeve.odd_part = OddPart{{25.0, 25.0}, {0.0, 0.0}};
  const EngineTruth truth = draw_truth(sleeve, 1, 0);
  for (std::size_t part = 0; part < truth.sizes_mm.size(); ++part) {
    for (const double size_mm : truth.sizes_mm[part]) {
      if (part == *truth.odd_part) {
        EXPECT_NEAR(size_mm, 84.035, 1e-9);  // as made 10 µm, level 25 µm
      } else {
        EXPECT_GT(std::fabs(size_mm - 84.035), 1e-6);
      }
    }
  }
}

TEST(Truth, OneSidedWearIsNeverLess) {
  EngineFamily sided = without_spans(family("one-sided"));
  sided.as_made_common_um = sided.as_made_own_um = sided.texture_um = 0.0;
  sided.components.pop_back();  // the oval
  const double least_mm = 84.010 + sided.components[0].amount.low * 1e-3;
  for (std::uint64_t number = 0; number < 100; ++number) {
    for (const auto& part : draw_truth(sided, 1, number).sizes_mm) EXPECT_GE(part[0], least_mm - 1e-9);
  }
}

TEST(Truth, OnlyTwoFamiliesAreNotGaussianGivenTheirHyper) {
  for (const EngineFamily& each : built_in_families()) {
    EXPECT_EQ(is_gaussian(each), each.id != "one-sleeve" && each.id != "one-sided") << each.id;
  }
}

TEST(Truth, HypersFillTheUnitCube) {
  const EngineFamily& exp = family("exp");
  ASSERT_EQ(hyper_dimensions(exp), 4U);  // amount, length and likeness of the wear; share of the oval
  const Hyper low = hyper_at(exp, std::vector<double>(4, 0.0));
  EXPECT_EQ(low.components[0].amount_um, exp.components[0].amount.low);
  EXPECT_EQ(low.components[1].amount_um, exp.components[0].amount.low * exp.components[1].amount.low);
  EXPECT_EQ(low.components[1].length, low.components[0].length);
  const EngineFamily& unknown = family("step-unknown");
  ASSERT_EQ(hyper_dimensions(unknown), 5U);
  EXPECT_EQ(hyper_at(unknown, std::vector<double>{0.49, 0.0, 0.0, 0.0, 0.0}).step_um, 0.0);
  EXPECT_EQ(hyper_at(unknown, std::vector<double>{0.51, 0.0, 0.0, 0.0, 0.0}).step_um, 250.0);
}

}  // namespace
}  // namespace fettle
