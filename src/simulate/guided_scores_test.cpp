#include "simulate/guided_scores.h"

#include <gtest/gtest.h>

#include "simulate/score.h"

namespace fettle {
namespace {

GuidedState state(double chance, std::size_t readings, double worth) { return {chance, false, readings, readings / 10, worth}; }
NotebookState noted(bool passes, std::size_t readings, double nearest_um) { return {passes, passes, readings, 1, nearest_um}; }

/// Four engines. Passing wrongly costs 3, failing wrongly 1, so that 0.75 is the threshold.
std::vector<GuidedOutcome> four() {
  return {
      {true, {state(0.9, 20, 0.0)}, {noted(true, 20, 50.0)}},
      {true, {state(0.7, 20, 5.0), state(0.95, 26, 1.0), state(0.99, 32, 0.0)}, {noted(false, 20, 4.0), noted(true, 26, 9.0)}},
      {false, {state(0.8, 20, 4.0), state(0.1, 24, 0.0)}, {noted(true, 20, 4.0), noted(true, 26, 9.0)}},
      {false, {state(0.2, 20, 0.5), state(0.1, 30, 0.0)}, {noted(false, 20, 9.0), noted(false, 26, 9.0)}},
  };
}

TEST(GuidedScores, CountsWhatWasDecidedAndReadAtThatPrice) {
  const Costs costs{3.0, 1.0};
  const GuidedScores scores = guided_scores("f", "h", four(), costs, 2.0);
  // At 2 a minute the second engine is visited once, the third once, the fourth never.
  EXPECT_NEAR(scores.first_readings, 20.0, 1e-12);
  EXPECT_NEAR(scores.more_readings, 10.0 / 80.0, 1e-12);
  // Notebook at first: fails a good one (1), passes a bad one (3). Ours at first: the same two.
  EXPECT_NEAR(scores.before->value, 1.0, 1e-12);
  EXPECT_NEAR(scores.after->value, 0.0, 1e-12);
  ASSERT_TRUE(scores.chances);
  EXPECT_EQ(scores.chances->count, 4U);
}

TEST(GuidedScores, TheNotebookReadsAsMuchAndNoMore) {
  const Costs costs{3.0, 1.0};
  const GuidedScores scores = guided_scores("f", "h", four(), costs, 2.0);
  // With the band past 4 µm it takes 12 more readings: two visits of 6. It gets 10, so ten twelfths of its engines go: it mends the good one
  // that it failed and keeps the bad one that it passed.
  EXPECT_NEAR(scores.notebook_more_readings, 10.0 / 80.0, 1e-12);
  EXPECT_NEAR(scores.notebook->value, (4.0 - 10.0 / 12.0) / 4.0, 1e-12);
}

TEST(GuidedScores, ThePriceIsTheLowestForTheShareOfReadings) {
  const std::vector<std::vector<GuidedOutcome>> families = {four()};
  const double price = price_for(families, 0.13);
  EXPECT_GT(price, 1.0);  // below it the second engine is visited twice
  EXPECT_LE(guided_scores("f", "h", families.front(), {3.0, 1.0}, price).more_readings, 0.13);
  EXPECT_GT(guided_scores("f", "h", families.front(), {3.0, 1.0}, price / 1.11).more_readings, 0.13);
}

TEST(GuidedScores, AnEngineWithoutAChanceGoesByTheGuardedRule) {
  std::vector<GuidedOutcome> outcomes = four();
  outcomes[0].guided[0].chance.reset();
  EXPECT_NEAR(guided_scores("f", "h", outcomes, {3.0, 1.0}, 2.0).after->value, 1.0 / 4.0, 1e-12);
  EXPECT_EQ(chances_after_guiding(outcomes, 2.0).size(), 3U);
}

}  // namespace
}  // namespace fettle
