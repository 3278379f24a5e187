#include "app/judged_again.h"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "app/judge_job.h"
#include "app/open_folder.h"

namespace fettle {
namespace {

const std::string kJob = std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/found-out";

JudgedJob judged(const Job& job) { return judge_job(job, {{}, usual_accuracy()}).value(); }

TEST(JudgedAgain, ListsEveryReadingAndVerdictThatRestsOnTheGauge) {
  const Job job = open_folder(kJob).value();
  const JudgedJob now = judged(job);
  ASSERT_EQ(now.again.size(), 2U);
  const JudgedAgain& master = now.again[0];
  EXPECT_EQ(master.settings, std::vector<std::string>{"first"});
  EXPECT_EQ(master.parts, (std::vector<std::string>{"bore-1", "bore-2", "bore-3"}));
  EXPECT_EQ(master.readings.size(), 25U);
  EXPECT_EQ(master.verdicts.size(), 15U);
  const JudgedAgain& second = now.again[1];
  EXPECT_EQ(second.parts, std::vector<std::string>{"piston-2"});
  ASSERT_EQ(second.verdicts.size(), 1U);
  EXPECT_GT(second.verdicts[0].now.doubt->standard_uncertainty, second.verdicts[0].before.doubt->standard_uncertainty);
}

TEST(JudgedAgain, BeforeIsWhatWasJudgedBeforeThisOneWasFoundOut) {
  Job job = open_folder(kJob).value();
  const JudgedJob now = judged(job);
  ASSERT_EQ(now.again.size(), 2U);
  job.found_out.erase(job.found_out.begin());
  const JudgedJob before = judged(job);
  ASSERT_EQ(before.again.size(), 1U);
  for (const JudgedAgain::Twice& each : now.again[0].verdicts) {
    const auto was = std::find_if(before.judgement.verdicts.begin(), before.judgement.verdicts.end(),
                                  [&](const Verdict& verdict) { return verdict.part == each.now.part && verdict.limit == each.now.limit; });
    EXPECT_EQ(was->chance->value, each.before.chance->value) << each.now.part << each.now.limit;
    EXPECT_EQ(was->as_measured, each.now.as_measured);
  }
}

TEST(JudgedAgain, AWordChangesOnlyUnderTheGaugeThatChangedIt) {
  // The first micrometer lent its size to the bores, and so far off that bore 3 passes; the second read a piston only.
  Job job = open_folder(kJob).value();
  const TypingContext plain{std::nullopt, Dimension::length, DecimalMark::point, std::nullopt, false, std::nullopt};
  job.found_out[0].value.shows_too_much = read_quantity("0.050 mm", plain, {}).value();
  const JudgedJob now = judged(job);
  ASSERT_EQ(now.again.size(), 2U);
  const auto changed = [](const JudgedAgain& again) {
    std::vector<std::string> out;
    for (const JudgedAgain::Twice& each : again.verdicts) {
      if (each.before.word != each.now.word) out.push_back(each.now.part);
    }
    return out;
  };
  EXPECT_FALSE(changed(now.again[0]).empty());
  EXPECT_TRUE(changed(now.again[1]).empty());
  EXPECT_EQ(now.again[0].states.size(), 3U);
  EXPECT_EQ(now.again[0].readings.front().figures.has_value(), false) << "51 acw was carbon: kept, listed, in no size";
}

TEST(JudgedAgain, SaysHowFarEachSizeWentAndHowSureItWas) {
  const JudgedJob now = judged(open_folder(kJob).value());
  for (const JudgedAgain::InDoubt& each : now.again[0].readings) {
    if (!each.figures) continue;
    EXPECT_NEAR(each.figures->moved, -0.5 * 0.0003 * 25.4, 1e-9);
    const double widened = each.figures->u_now * each.figures->u_now - each.figures->u_before * each.figures->u_before;
    const double d = 0.0003 * 25.4;
    EXPECT_NEAR(widened, d * d / 4.0 + 0.5 * std::pow(0.00005 * 25.4, 2) / 3.0, 1e-9);
  }
}

TEST(JudgedAgain, AMicrometerThatShowedTooMuchMadeTheBoresLookLarger) {
  // The bore gauge was zeroed on a micrometer set to 3.307 in that stood .0003 in smaller.
  const JudgedJob now = judged(open_folder(kJob).value());
  for (const JudgedAgain::Twice& each : now.again[0].verdicts) {
    if (each.now.limit != "bore-service") continue;
    EXPECT_LT(each.now.best->median, each.before.best->median) << each.now.part;
    EXPECT_GE(each.now.chance->value, each.before.chance->value - usual_accuracy().chance_error) << each.now.part;
  }
}

TEST(JudgedAgain, AnAssemblyRestsOnItsMembers) {
  Job job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/tests/cli/jobs/bore-and-piston").value();
  FoundOut found{};
  found.gauge = job.settings.front().value.master.value_or(job.settings.front().value.gauge);
  found.may_be_off = read_quantity("0.05 mm", {std::nullopt, Dimension::length, DecimalMark::point, std::nullopt, false, std::nullopt}, {}).value();
  found.what = "dropped";
  job.found_out.push_back({"f", found});
  const JudgedJob now = judged(job);
  ASSERT_EQ(now.again.size(), 1U);
  const auto pair = std::find_if(job.parts.begin(), job.parts.end(), [](const auto& each) { return each.value.members.has_value(); });
  ASSERT_NE(pair, job.parts.end());
  EXPECT_NE(std::find(now.again[0].parts.begin(), now.again[0].parts.end(), pair->value.id), now.again[0].parts.end());
}

}  // namespace
}  // namespace fettle
