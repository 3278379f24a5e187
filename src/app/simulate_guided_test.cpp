#include "app/simulate_guided.h"

#include <gtest/gtest.h>

#include "simulate/families_file.h"

namespace fettle {
namespace {

class NeverStop final : public Progress {
 public:
  [[nodiscard]] bool tell(long, long) override { return true; }
};

SimulateRequest request_of(std::size_t engines, unsigned threads) {
  SimulateRequest out{{*find_family(built_in_families(), "exp"), *find_family(built_in_families(), "barrel")},
                      {*find_hand(built_in_hands(), "mid")},
                      engines, 0, 21, threads, usual_accuracy(), kTrialCosts};
  out.accuracy.draws = 0;
  out.accuracy.best_draws = 0;
  out.accuracy.chance_error = 0.01;
  return out;
}

// 40 engines of two families: the guided loss of these families is about a third of the first round's; a coin would not show it.
TEST(SimulateGuidedInTrials, ReadingOnAsAdvisedPays) {
  NeverStop progress;
  const GuidedRecord record = simulate_guided(request_of(40, 2), std::nullopt, progress);
  ASSERT_EQ(record.families.size(), 2U);
  double before = 0.0;
  double after = 0.0;
  for (const GuidedScores& each : record.families) {
    ASSERT_TRUE(each.before && each.after && each.notebook);
    EXPECT_LE(each.notebook_more_readings, each.more_readings + 1e-9);
    before += each.before->value;
    after += each.after->value;
  }
  EXPECT_LT(after, 0.7 * before);
  EXPECT_LE(0.5 * (record.families[0].more_readings + record.families[1].more_readings), 0.25 + 1e-9);
}

TEST(SimulateGuided, DoesNotDependOnThreads) {
  NeverStop progress;
  const GuidedRecord one = simulate_guided(request_of(6, 1), 1.0, progress);
  const GuidedRecord three = simulate_guided(request_of(6, 3), 1.0, progress);
  for (std::size_t f = 0; f < one.families.size(); ++f) {
    EXPECT_EQ(one.families[f].more_readings, three.families[f].more_readings);
    EXPECT_EQ(one.families[f].after.has_value(), three.families[f].after.has_value());
    EXPECT_EQ(one.families[f].after.value_or(Scattered{}).value, three.families[f].after.value_or(Scattered{}).value);
  }
}

TEST(SimulateGuided, ADearerMinuteIsSpentLess) {
  NormalPoints points(20);
  const EngineFamily& family = *find_family(built_in_families(), "exp");
  const Hand& hand = *find_hand(built_in_hands(), "mid");
  Accuracy accuracy = request_of(2, 1).accuracy;
  std::size_t cheap = 0;
  std::size_t dear = 0;
  for (std::uint64_t number = 0; number < 12; ++number) {
    cheap += guide_engine(family, hand, 3, number, accuracy, kTrialCosts, 0.5, points).guided.back().readings;
    dear += guide_engine(family, hand, 3, number, accuracy, kTrialCosts, 60.0, points).guided.back().readings;
  }
  EXPECT_GT(cheap, dear);
}

}  // namespace
}  // namespace fettle
