// Shafts, guides and pins, simulated: docs/proof/shaft-families.toml. The full run and what came of it: docs/PROOF.md.
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <sstream>

#include "app/judge_job.h"
#include "app/simulate_scores.h"
#include "catalogue/catalogue.h"
#include "form/shape_group.h"

namespace fettle {
namespace {

const std::vector<EngineFamily>& shaft_families() {
  static const std::vector<EngineFamily> kFamilies = [] {
    std::ifstream file(std::string(FETTLE_SOURCE_DIR) + "/docs/proof/shaft-families.toml");
    std::ostringstream text;
    text << file.rdbuf();
    return read_families(text.str(), "shaft-families.toml").value();
  }();
  return kFamilies;
}

TEST(ShaftFamilies, HalfOfTheEnginesAreGoodMoreOrLess) {
  EXPECT_GE(shaft_families().size(), 20U);
  for (const EngineFamily& family : shaft_families()) {
    const TruthJudge judge(family);
    int good = 0;
    for (std::uint64_t number = 0; number < 400; ++number) good += judge.keeps(draw_truth(family, 2, number)) ? 1 : 0;
    EXPECT_GT(good, 100) << family.id;
    EXPECT_LT(good, 300) << family.id;
  }
}

/// A shaft gets smaller by its wear, a bore larger; and what the hand types comes back as the size that it is.
TEST(ShaftFamilies, WhatIsReadIsWhatItIs) {
  for (const EngineFamily& family : shaft_families()) {
    const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), "good"), 3, 1);
    const Result<JudgedJob> judged = judge_job(engine.job, {{}, usual_accuracy(), JudgeDetail::verdicts});
    ASSERT_TRUE(judged.ok()) << family.id << " " << judged.problems().front().code;
    double off_um = 0.0;
    std::size_t read = 0;
    for (const Size& size : judged.value().sizes.sizes) {
      const auto part = std::find_if(engine.job.parts.begin(), engine.job.parts.end(), [&](const auto& each) { return each.value.id == size.part; });
      const double truth = engine.truth.sizes_mm[static_cast<std::size_t>(part - engine.job.parts.begin())][size.cell];
      off_um = std::max(off_um, 1000.0 * std::abs(size.estimate - truth));
      ++read;
    }
    EXPECT_EQ(read, engine.job.readings.size()) << family.id;
    EXPECT_LT(off_um, 20.0) << family.id;
    const double most = family.feature == Feature::inside ? 1.0 : -1.0;
    const double level = most * (engine.truth.sizes_mm[0][0] - family.standard.millimetres());
    EXPECT_GT(level, -0.02) << family.id;
    ASSERT_NE(judged.value().groups.front().shape, nullptr) << family.id;
    EXPECT_EQ(judged.value().groups.front().shape->knowledge.pattern, catalogue().kind(family.kind)->wear.pattern) << family.id;
  }
}

class GoesOn final : public Progress {
 public:
  [[nodiscard]] bool tell(long, long) override { return true; }
};

// Few engines, so that it takes seconds: the figure is a chance where the flat prior's is none.
TEST(ShaftFamilies, ChancesCanBeTakenAtTheirWord) {
  SimulateRequest asked{{}, {*find_hand(built_in_hands(), "mid")}, 70, 0, 8, 2, usual_accuracy(), kTrialCosts};
  for (const char* id : {"guide-barrel", "shaft-bell", "pin-one-boss", "stem-lower"}) asked.families.push_back(*find_family(shaft_families(), id));
  asked.accuracy.draws = 256;
  asked.accuracy.best_draws = 0;
  asked.accuracy.chance_error = 0.01;
  GoesOn progress;
  const SimulateRecord record = simulate_scores(asked, progress);
  const HandReliability& all = record.hands.front();
  ASSERT_TRUE(all.ours && all.flat);
  EXPECT_EQ(all.ours->count, 280U);
  EXPECT_LT(all.ours->calibration_error, all.ours->luck_most + 0.03);
  EXPECT_LT(all.ours->brier, all.flat->brier);
  EXPECT_LT(all.ours->log_loss, all.flat->log_loss);
}

}  // namespace
}  // namespace fettle
