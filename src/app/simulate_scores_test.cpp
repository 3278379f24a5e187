#include "app/simulate_scores.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "app/judge_job.h"

namespace fettle {
namespace {

class Never final : public Progress {
 public:
  [[nodiscard]] bool tell(long, long) override { return true; }
};

SimulateRequest request(const std::vector<std::string>& families, const char* hand, std::size_t engines) {
  SimulateRequest out{{}, {*find_hand(built_in_hands(), hand)}, engines, 0, 5, 2, usual_accuracy(), kTrialCosts};
  for (const std::string& id : families) out.families.push_back(*find_family(built_in_families(), id));
  out.accuracy.draws = 256;
  out.accuracy.best_draws = 0;
  out.accuracy.chance_error = 0.01;
  return out;
}

// A few thousand engines of families that the model was not made from. The full run and what came of it: docs/PROOF.md.
TEST(SimulateScores, ChancesCanBeTakenAtTheirWordAndLoseLessInTrials) {
  Never never;
  const SimulateRecord record = simulate_scores(request({"exp", "barrel", "uneven", "ring-step", "unworn-foot"}, "mid", 500), never);
  double ours = 0.0;
  for (const FamilyScores& each : record.families) {
    EXPECT_LE(each.scores.ours->calibration_error, each.scores.ours->luck_most + 0.02) << each.family;
    ours += each.scores.find(DecisionRule::ours)->raw.to_notebook->value / 5.0;
  }
  EXPECT_LT(ours, 0.95);
  // The flat prior's figure is no chance: far outside of what luck allows.
  EXPECT_GT(record.hands.front().flat->calibration_error, 5.0 * record.hands.front().flat->luck_most);
  EXPECT_LT(record.hands.front().ours->calibration_error, 0.025);
}

TEST(SimulateScores, TheSameForAnyNumberOfThreads) {
  Never never;
  SimulateRequest asked = request({"exp", "one-sleeve"}, "coarse", 60);
  asked.threads = 1;
  const SimulateRecord one = simulate_scores(asked, never);
  asked.threads = 3;
  const SimulateRecord three = simulate_scores(asked, never);
  for (std::size_t k = 0; k < 2; ++k) {
    EXPECT_EQ(one.families[k].scores.ours->brier, three.families[k].scores.ours->brier);
    EXPECT_EQ(one.families[k].scores.ours->log_loss, three.families[k].scores.ours->log_loss);
  }
}

/// Says stop once `after` engines are done.
class StopsAfter final : public Progress {
 public:
  explicit StopsAfter(long after) : after_(after) {}
  [[nodiscard]] bool tell(long done, long all) override {
    monotone = monotone && done >= last && done <= all;
    last = done;
    ++told;
    return done < after_;
  }
  long last = 0;
  long told = 0;
  bool monotone = true;

 private:
  long after_;
};

// The family in hand is given up, what was finished before it stays, and nobody works on.
TEST(SimulateScores, StopsWhereItIsTold) {
  for (const unsigned threads : {1U, 3U}) {
    SimulateRequest asked = request({"exp", "barrel", "new"}, "mid", 64);
    asked.threads = threads;
    StopsAfter progress(64 + 16);
    const SimulateRecord record = simulate_scores(asked, progress);
    EXPECT_TRUE(record.stopped);
    ASSERT_EQ(record.families.size(), 1U);
    EXPECT_EQ(record.families.front().family, "exp");
    EXPECT_TRUE(progress.monotone);
    EXPECT_GE(progress.last, 80);
    EXPECT_LE(progress.last, 80 + 16 * 2);  // what the other threads had in hand
    Never never;
    EXPECT_FALSE(simulate_scores(request({"exp"}, "mid", 16), never).stopped);
  }
}

/// Brier score of engines whose jobs claim `factor` times the repeatability that the hand really has.
Reliability with_claim(double factor) {
  const EngineFamily& family = *find_family(built_in_families(), "exp");
  const Hand& hand = *find_hand(built_in_hands(), "mid");
  const TruthJudge truth(family);
  Accuracy accuracy = usual_accuracy();
  accuracy.draws = 0;
  accuracy.best_draws = 0;
  accuracy.chance_error = 0.01;
  std::vector<StatedChance> chances;
  for (std::uint64_t number = 0; number < 500; ++number) {
    SimulatedEngine engine = simulate_engine(family, hand, 2, number);
    for (Kept<Gauge>& gauge : engine.job.gauges) {
      for (ErrorComponent& component : gauge.value.replaced) {
        if (component.id == "repeat") component.spread.value = component.spread.value * Ratio::of(static_cast<std::int64_t>(factor * 10), 10);
      }
    }
    const Result<JudgedJob> judged = judge_job(engine.job, {{}, accuracy, JudgeDetail::verdicts});
    chances.push_back({judged.value().judgement.joint.chance->value, truth.keeps(engine.truth), std::nullopt});
  }
  return *reliability(chances);
}

// If the scores did not feel what the model believes of its gauges, they would be no scores.
TEST(SimulateScores, AFalseClaimOfRepeatabilityIsSeenInTrials) {
  const Reliability honest = with_claim(1.0);
  const Reliability doubled = with_claim(2.0);
  const Reliability halved = with_claim(0.5);
  EXPECT_GT(doubled.brier, honest.brier);
  EXPECT_GT(doubled.log_loss, honest.log_loss);
  EXPECT_GT(doubled.calibration_error, honest.calibration_error);
  EXPECT_GT(halved.log_loss, honest.log_loss);
}

}  // namespace
}  // namespace fettle
