#include "simulate/score.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <functional>

#include "base/assertion.h"
#include "numeric/draws.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

/// good, ours, flat, exact; notebook_equal_passes, notebook_equal_fails, guarded, bias-corrected.
Outcome outcome_of(bool good, std::optional<double> ours, std::optional<double> flat, std::optional<double> exact,
                   std::array<bool, 4> plain) {
  return {good, ours, flat, exact, plain[0], plain[1], plain[2], plain[3], 24, false};
}

/// Four engines; invented.
std::vector<Outcome> four_engines() {
  return {outcome_of(true, 0.90, 0.60, 0.80, {true, true, true, true}),
          outcome_of(true, 0.50, 0.30, 0.90, {true, false, false, true}),
          outcome_of(false, 0.80, 0.80, 0.50, {true, false, false, true}),
          outcome_of(false, 0.10, 0.05, 0.10, {false, false, false, true})};
}

const RuleScore& found(const Scores& scores, DecisionRule rule) {
  const RuleScore* score = scores.find(rule);
  if (score == nullptr) throw InternalError("rule was left out");
  return *score;
}

// Threshold 1500 / 1950 = 0.7692. By hand, engine by engine, W = 1500, F = 450:
//   rule              passes    raw losses          expected losses (0.8, 0.9, 0.5, 0.1 good)
//   equal passes      P P P F   0 0 W 0             0.2W 0.1W 0.5W 0.1F  = 300 150 750 45
//   equal fails       P F F F   0 F 0 0             0.2W 0.9F 0.5F 0.1F  = 300 405 225 45
//   guarded           as equal fails
//   bias-corrected    P P P P   0 0 W W             300 150 750 1350
//   flat              F F P F   F F W 0             0.8F 0.9F 0.5W 0.1F  = 360 405 750 45
//   flat at 0.20      P P P F   as equal passes
//   ours              P F P F   0 F W 0             300 405 750 45
//   bayes             P P F F   0 0 0 0             300 150 225 45
TEST(Score, AgreesWithHandComputedLosses) {
  const Scores scores = score(four_engines(), kTrialCosts, 0.20);
  struct Expected {
    DecisionRule rule;
    std::array<std::size_t, 3> counts;  // passed, wrong passes, wrong fails
    double raw;
    double expected;
  };
  const std::vector<Expected> rows = {
      {DecisionRule::notebook_equal_passes, {3, 1, 0}, 375.0, 311.25},
      {DecisionRule::notebook_equal_fails, {1, 0, 1}, 112.5, 243.75},
      {DecisionRule::guarded, {1, 0, 1}, 112.5, 243.75},
      {DecisionRule::bias_corrected, {4, 2, 0}, 750.0, 637.5},
      {DecisionRule::flat, {1, 1, 2}, 600.0, 390.0},
      {DecisionRule::flat_tuned, {3, 1, 0}, 375.0, 311.25},
      {DecisionRule::ours, {2, 1, 1}, 487.5, 375.0},
      {DecisionRule::bayes, {2, 0, 0}, 0.0, 180.0},
  };
  ASSERT_EQ(scores.rules.size(), rows.size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const RuleScore& own = scores.rules[i];
    EXPECT_EQ(own.rule, rows[i].rule);
    EXPECT_EQ((std::array{own.passed, own.wrong_passes, own.wrong_fails}), rows[i].counts) << i;
    EXPECT_NEAR(own.raw.mean.value, rows[i].raw, 1e-9) << i;
    ASSERT_TRUE(own.expected);
    EXPECT_NEAR(own.expected->mean.value, rows[i].expected, 1e-9) << i;
    // The better tie rule is "equal fails" both ways.
    EXPECT_NEAR(own.raw.to_notebook->value, rows[i].raw / 112.5, 1e-12) << i;
    EXPECT_NEAR(own.expected->to_notebook->value, rows[i].expected / 243.75, 1e-12) << i;
  }
  EXPECT_NEAR(scores.gap_open_raw->value, 487.5 / 112.5, 1e-12);
  EXPECT_NEAR(scores.gap_open_expected->value, (375.0 - 180.0) / (243.75 - 180.0), 1e-12);
  EXPECT_EQ(scores.good, 2U);
  EXPECT_EQ(scores.mean_readings, 24.0);
}

// Raw losses of "equal fails" are 0, 450, 0, 0: mean 112.5, squares 3 x 112.5^2 + 337.5^2 = 151875, over 4 x 3 =
// 12656.25, whose root is 112.5. Expected losses of ours 300 405 750 45 to those of "equal fails" 300 405 225 45, ratio
// 375 / 243.75 = 20/13: rest (below x 20/13 taken away) -161.538, -218.077, 403.846, -24.231 with mean 0; squares
// 26094.7 + 47557.5 + 163091.7 + 587.1 = 237331.1, over 12 = 19777.6, root 140.633, over 243.75 = 0.576957.
TEST(Score, AgreesWithHandComputedErrors) {
  const Scores scores = score(four_engines(), kTrialCosts, 0.20);
  EXPECT_NEAR(found(scores, DecisionRule::notebook_equal_fails).raw.mean.standard_error, 112.5, 1e-9);
  EXPECT_NEAR(found(scores, DecisionRule::ours).expected->to_notebook->standard_error, 0.576957, 2e-5);
  EXPECT_EQ(found(scores, DecisionRule::notebook_equal_fails).raw.to_notebook->standard_error, 0.0);
}

TEST(Score, RulesWhoseFigureIsNotKnownAreLeftOut) {
  std::vector<Outcome> outcomes = four_engines();
  outcomes[1].exact.reset();
  outcomes[2].flat.reset();
  const Scores scores = score(outcomes, kTrialCosts, 0.2);
  EXPECT_EQ(scores.find(DecisionRule::bayes), nullptr);
  EXPECT_EQ(scores.find(DecisionRule::flat), nullptr);
  EXPECT_EQ(scores.find(DecisionRule::flat_tuned), nullptr);
  EXPECT_FALSE(scores.gap_open_raw);
  EXPECT_FALSE(scores.gap_open_expected);
  EXPECT_FALSE(found(scores, DecisionRule::ours).expected);
  EXPECT_EQ(scores.flat->count, 3U);
  EXPECT_FALSE(scores.ours->calibration_error_exact);
  EXPECT_FALSE(tune_threshold(outcomes, kTrialCosts));
}

TEST(Score, WithoutAChanceTheGuardBandDecides) {
  std::vector<Outcome> outcomes = four_engines();
  outcomes[2].ours.reset();  // guarded fails it, as is right: 0 in the place of 1500
  outcomes[2].misfit = true;
  const Scores scores = score(outcomes, kTrialCosts, 0.2);
  EXPECT_NEAR(found(scores, DecisionRule::ours).raw.mean.value, 112.5, 1e-12);
  EXPECT_EQ(scores.without_chance, 1U);
  EXPECT_EQ(scores.misfits, 1U);
  EXPECT_EQ(scores.ours->count, 3U);
  outcomes[2].guarded_passes = true;
  EXPECT_NEAR(found(score(outcomes, kTrialCosts, 0.2), DecisionRule::ours).raw.mean.value, 487.5, 1e-12);
}

TEST(Score, NoRatioToANotebookThatLostNothing) {
  std::vector<Outcome> outcomes = four_engines();
  for (Outcome& outcome : outcomes) outcome.notebook_equal_fails = outcome.good;
  const Scores scores = score(outcomes, kTrialCosts, 0.2);
  EXPECT_FALSE(found(scores, DecisionRule::ours).raw.to_notebook);
  EXPECT_TRUE(found(scores, DecisionRule::ours).expected->to_notebook);
  EXPECT_FALSE(scores.gap_open_raw);
}

TEST(Score, AtTheThresholdBothDecisionsCostTheSame) {
  const double level = cost_threshold(kTrialCosts);
  EXPECT_NEAR(level, 10.0 / 13.0, 1e-15);
  EXPECT_NEAR(kTrialCosts.wrong_pass * (1.0 - level), kTrialCosts.wrong_fail * level, 1e-9);
  std::vector<Outcome> outcomes = four_engines();
  for (Outcome& outcome : outcomes) outcome.ours = level;
  EXPECT_EQ(found(score(outcomes, kTrialCosts, 0.2), DecisionRule::ours).passed, 4U);
}

TEST(Score, RefusesWhatItCannotScore) {
  EXPECT_THROW((void)score({}, kTrialCosts, 0.5), InternalError);
  const std::vector<Outcome> outcomes = four_engines();
  EXPECT_THROW((void)score(std::span(outcomes).first(1), kTrialCosts, 0.5), InternalError);
  EXPECT_THROW((void)score(outcomes, {0.0, 1.0}, 0.5), InternalError);
  EXPECT_THROW((void)score(outcomes, {1.0, std::nan("")}, 0.5), InternalError);
  std::vector<Outcome> wrong = outcomes;
  wrong[0].ours = 1.5;
  EXPECT_THROW((void)score(wrong, kTrialCosts, 0.5), InternalError);
  wrong = outcomes;
  wrong[0].exact = -0.1;
  EXPECT_THROW((void)score(wrong, kTrialCosts, 0.5), InternalError);
}

/// A made-up world with a known truth: a figure x ~ N(0, 1) is good below 0.3; a first gauge sees it with standard
/// deviation 0.8, and the exact posterior is P(x < 0.3 | seen) = Phi((0.3 - k seen) / (0.8 sqrt k)), k = 1 / 1.64.
std::vector<Outcome> made_up_world(std::uint64_t stream, std::size_t engines) {
  Generator generator(7, stream);
  const double k = 1.0 / 1.64;
  std::vector<Outcome> out;
  for (std::size_t i = 0; i < engines; ++i) {
    const double x = generator.normal();
    const double seen = x + 0.8 * generator.normal();
    const double exact = normal_lower((0.3 - k * seen) / (0.8 * std::sqrt(k)));
    const double ours = normal_lower((0.2 - k * seen) / (0.8 * std::sqrt(k)));
    const double flat = normal_lower((0.3 - seen) / 0.8);
    out.push_back(outcome_of(x < 0.3, ours, flat, exact, {seen <= 0.3, seen < 0.3, seen < -0.5, seen < 0.4}));
  }
  return out;
}

TEST(Score, NothingBeatsTheLimitAndExpectedAgreesWithRaw) {
  const Scores scores = score(made_up_world(1, 20'000), kTrialCosts, 0.5);
  const double limit = found(scores, DecisionRule::bayes).expected->mean.value;
  for (const RuleScore& rule : scores.rules) {
    EXPECT_GE(rule.expected->mean.value, limit) << static_cast<int>(rule.rule);
    EXPECT_LT(rule.expected->mean.standard_error, 0.8 * rule.raw.mean.standard_error);
    EXPECT_NEAR(rule.expected->mean.value, rule.raw.mean.value, 4.0 * rule.raw.mean.standard_error);
    EXPECT_NEAR(rule.expected->to_notebook->value, rule.raw.to_notebook->value,
                4.0 * rule.raw.to_notebook->standard_error + 1e-12);
  }
}

// 400 runs give a standard deviation to 3.5 %; 4 of these and some bias of a ratio of 400 engines.
TEST(Score, StatedErrorsAreThoseSeenInRepetition) {
  constexpr std::size_t kRuns = 400;
  struct Figure {
    const char* what;
    std::function<Scattered(const Scores&)> of;
    double sum = 0.0;
    double squares = 0.0;
    double stated = 0.0;
  };
  const auto ours = [](const Scores& s) -> const RuleScore& { return found(s, DecisionRule::ours); };
  std::vector<Figure> figures = {
      {"mean, raw", [&](const Scores& s) { return ours(s).raw.mean; }},
      {"mean, expected", [&](const Scores& s) { return ours(s).expected->mean; }},
      {"ratio, raw", [&](const Scores& s) { return *ours(s).raw.to_notebook; }},
      {"ratio, expected", [&](const Scores& s) { return *ours(s).expected->to_notebook; }},
      {"gap, expected", [](const Scores& s) { return *s.gap_open_expected; }},
  };
  for (std::size_t run = 0; run < kRuns; ++run) {
    const Scores scores = score(made_up_world(100 + run, 400), kTrialCosts, 0.5);
    for (Figure& figure : figures) {
      const Scattered one = figure.of(scores);
      figure.sum += one.value;
      figure.squares += one.value * one.value;
      figure.stated += one.standard_error / kRuns;
    }
  }
  for (const Figure& figure : figures) {
    const double mean = figure.sum / kRuns;
    const double seen = std::sqrt((figure.squares - kRuns * mean * mean) / (kRuns - 1));
    EXPECT_NEAR(figure.stated / seen, 1.0, 0.16) << figure.what;
  }
}

double flat_loss(const std::vector<Outcome>& outcomes, double threshold, bool expected) {
  const Scores scores = score(outcomes, kTrialCosts, threshold);
  const RuleScore& tuned = found(scores, DecisionRule::flat_tuned);
  return expected ? tuned.expected->mean.value : tuned.raw.mean.value;
}

TEST(TuneThreshold, IsAsGoodAsTryingEverything) {
  for (std::uint64_t stream = 1; stream <= 12; ++stream) {
    std::vector<Outcome> outcomes = made_up_world(stream, 60);
    const bool expected = stream % 2 == 0;
    if (!expected) {
      for (Outcome& outcome : outcomes) outcome.exact.reset();
    }
    const double tuned = flat_loss(outcomes, *tune_threshold(outcomes, kTrialCosts), expected);
    for (int i = 0; i <= 201; ++i) EXPECT_LE(tuned, flat_loss(outcomes, i / 200.0, expected) + 1e-9) << i;
  }
}

TEST(TuneThreshold, EndsAreReached) {
  std::vector<Outcome> outcomes = four_engines();
  for (Outcome& outcome : outcomes) {
    outcome.exact.reset();
    outcome.good = true;
  }
  EXPECT_LT(*tune_threshold(outcomes, kTrialCosts), 0.05);  // all pass
  for (Outcome& outcome : outcomes) outcome.good = false;
  EXPECT_GT(*tune_threshold(outcomes, kTrialCosts), 0.80);  // none passes
  outcomes[0].flat = 1.0;
  EXPECT_GT(*tune_threshold(outcomes, kTrialCosts), 1.0);
  EXPECT_FALSE(tune_threshold({}, kTrialCosts));
}

// Figures 0.05 bad, 0.30 good, 0.60 good, 0.80 bad: failing 0.05 saves 1500; also failing 0.30 costs 450, 0.60 again,
// and failing 0.80 then saves 1500 - 900: none passes, halfway from 0.80 to 1.
TEST(TuneThreshold, AgreesWithAHandComputedCase) {
  std::vector<Outcome> outcomes = four_engines();
  for (Outcome& outcome : outcomes) outcome.exact.reset();
  EXPECT_NEAR(*tune_threshold(outcomes, kTrialCosts), 0.9, 1e-12);
  // With a wrong pass at 500: 0.05 saves 500, 0.30 and 0.60 cost 900, 0.80 saves 500 of them: halfway from 0.05 to
  // 0.30.
  EXPECT_NEAR(*tune_threshold(outcomes, {500.0, 450.0}), 0.175, 1e-12);
}

// Costs alike, threshold 0.5. Figures bad, good, bad, good: failing the first alone, or the first three, saves the
// same; the middle of the gap nearer to 0.5 is taken.
TEST(TuneThreshold, OfSeveralTheNearestToTheCostsIsTaken) {
  const auto tuned = [](const std::array<double, 4>& figures) {
    std::vector<Outcome> outcomes;
    for (std::size_t i = 0; i < figures.size(); ++i) {
      outcomes.push_back(outcome_of(i % 2 == 1, std::nullopt, figures[i], std::nullopt, {true, true, true, true}));
    }
    return *tune_threshold(outcomes, {450.0, 450.0});
  };
  EXPECT_NEAR(tuned({0.2, 0.4, 0.5, 0.8}), 0.65, 1e-12);  // the other gap's middle is 0.30
  EXPECT_NEAR(tuned({0.4, 0.5, 0.7, 0.9}), 0.45, 1e-12);  // 0.80
}

// By hand: two families whose notebook rules each lose one wrong fail. At a threshold of 0.31 to 0.60 the first loses nothing and the second
// one wrong fail; above 0.60 both lose; at 0.30 and below a bad engine of the first passes.
TEST(FlatByHindsight, IsTheBestOfAllSteps) {
  const auto outcome = [](bool good, double flat, bool notebook) {
    return Outcome{good, std::nullopt, flat, std::nullopt, notebook, notebook, notebook, notebook, 1, false};
  };
  const std::vector<std::vector<Outcome>> families = {{outcome(true, 0.6, false), outcome(false, 0.305, false)},
                                                      {outcome(true, 0.1, false), outcome(false, 0.05, false)}};
  const auto best = flat_by_hindsight(families, {1500.0, 450.0});
  ASSERT_TRUE(best.has_value());
  EXPECT_NEAR(best->threshold, 0.31, 1e-12);
  EXPECT_NEAR(best->mean_to_notebook, 0.5, 1e-12);
  EXPECT_FALSE(flat_by_hindsight({{outcome(true, 0.9, true)}}, {1500.0, 450.0}).has_value());
}

}  // namespace
}  // namespace fettle
