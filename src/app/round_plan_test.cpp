#include "app/round_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "app/bench.h"
#include "app/linnet_on_bench.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;

struct Planned : LinnetOnBench {
  explicit Planned(const LinnetTold& told) : LinnetOnBench(told), recorded_job(job()), judged(judge_job(recorded_job.job, {std::nullopt, usual_accuracy()})) {}

  [[nodiscard]] RoundPlan plan(RoundAsked asked) {
    asked.asking.now = clock.at;
    const auto out = plan_round(recorded_job, judged.ok() ? &judged.value() : nullptr, asked);
    FETTLE_ASSERT(out.ok(), out.ok() ? "" : out.problems().front().code);
    return out.value();
  }
  [[nodiscard]] RoundPlan plan(const std::string& part) { return plan({part, {}, {}, false, {}}); }
  [[nodiscard]] RoundPlan second(const std::string& who) { return plan({"bore-3", {}, {}, true, {who, ""}}); }

  RecordedJob recorded_job;
  Result<JudgedJob> judged;
};

std::string place_at(const RoundPlan& plan, std::size_t at) {
  const RoundPlace& place = plan.places.at(at);
  return plan.part.layout.stations[place.station].id + "/" + plan.part.layout.directions[place.direction].id;
}

std::vector<LinnetRow> first_of(std::vector<LinnetRow> rows, std::size_t most) {
  rows.resize(most);
  return rows;
}

TEST(RoundPlan, TheHandGoesDownOneAxisAndUpTheOther) {
  Planned bench(LinnetTold{});
  const RoundPlan plan = bench.plan("bore-2");
  std::vector<std::string> order;
  for (std::size_t i = 0; i < plan.places.size(); ++i) order.push_back(place_at(plan, i));
  EXPECT_THAT(order, ElementsAre("top/thrust", "mid/thrust", "bottom/thrust", "foot/thrust", "foot/pin", "bottom/pin", "mid/pin", "top/pin"));
  EXPECT_EQ(plan.next, 0U);
  EXPECT_EQ(plan.number, 2U);
  EXPECT_EQ(plan.count, 4U);
  EXPECT_EQ(plan.setting->setting->value.id, "bg-1");
  EXPECT_EQ(plan.round, "1");
}

TEST(RoundPlan, WhatIsReadTwoWaysIsReadTogether) {
  const Kind* crankshaft = catalogue().kind("crankshaft");
  ASSERT_NE(crankshaft, nullptr);
  EXPECT_EQ(hand_order(crankshaft->layout).at(0), 0U);
  EXPECT_EQ(hand_order(crankshaft->layout).at(1), 1U) << "travel of main 1, then its high spot";
}

TEST(RoundPlan, TheNextPlaceIsTheFirstThatWasNotRead) {
  Planned bench({first_of(linnet_bore(2), 2)});
  const RoundPlan plan = bench.plan("bore-2");
  EXPECT_EQ(place_at(plan, *plan.next), "bottom/thrust");
  EXPECT_EQ(plan.places[0].state, MeasuredState::read);
  EXPECT_EQ(plan.places[2].state, MeasuredState::to_do);
  // By hand: 3.0709 in shown, 0.0001 in too much on the standard: 3.0708 in = 77.99832 mm. The zero stands at a third of a division
  // anticlockwise: 71 − 1/3 divisions of 0.001 mm more.
  ASSERT_TRUE(plan.places[0].readings[0].as_measured);
  EXPECT_EQ(in_unit(*plan.places[0].readings[0].as_measured, UnitId::millimetre, 4), "78.0690");
}

TEST(RoundPlan, WhatWasSetAsideIsReadAgainWhileTheHandIsThere) {
  std::vector<LinnetRow> rows = first_of(linnet_bore(4), 1);
  rows[0].reading = "61 acw";
  rows[0].flag = "deposit";
  {
    Planned bench({rows});
    const RoundPlan plan = bench.plan("bore-4");
    EXPECT_EQ(plan.places[0].state, MeasuredState::asked_again);
    EXPECT_EQ(plan.next, 0U);
    EXPECT_EQ(progress_of(plan.part, bench.recorded_job.job, nullptr).in, 0U);
  }
  rows.push_back(linnet_bore(4)[0]);
  Planned bench({rows});
  const RoundPlan plan = bench.plan("bore-4");
  EXPECT_EQ(plan.places[0].state, MeasuredState::read);
  EXPECT_EQ(plan.places[0].readings.size(), 2U) << "both are kept";
  EXPECT_EQ(plan.next, 1U);
}

TEST(RoundPlan, AReadingThatDoesNotFitIsAskedAgainUntilASecondIsThere) {
  std::vector<LinnetRow> rows = linnet_bores(4);
  LinnetRow& wrong = rows[8 + 6];
  ASSERT_EQ(wrong.station + wrong.direction, "midpin");
  wrong.reading = "28 cw";
  {
    Planned bench({rows});
    const RoundPlan plan = bench.plan("bore-2");
    ASSERT_TRUE(plan.next);
    EXPECT_EQ(place_at(plan, *plan.next), "mid/pin");
    EXPECT_EQ(plan.places[6].state, MeasuredState::asked_again);
    EXPECT_EQ(plan.places[6].wanted, 2U);
    EXPECT_TRUE(plan.places[6].readings[0].suspect);
    EXPECT_EQ(progress_of(plan.part, bench.recorded_job.job, &bench.judged.value()).state, MeasuredState::asked_again);
    EXPECT_EQ(bench.plan("bore-1").next, std::nullopt);
  }
  rows.push_back(wrong);
  rows.back().reading = "28 acw";
  Planned bench({rows});
  EXPECT_EQ(bench.plan("bore-2").next, std::nullopt) << "never more than one question a place";
}

TEST(RoundPlan, ASecondPersonSeesNothingBeforeEveryPlaceIsRead) {
  std::vector<LinnetRow> rows = linnet_bore(3);
  for (LinnetRow each : linnet_bore(3)) {
    each.who = "MK";
    rows.push_back(each);
  }
  rows[8].reading = "141 acw";
  {
    Planned bench({first_of(rows, 15)});
    const RoundPlan plan = bench.second("MK");
    EXPECT_EQ(place_at(plan, *plan.next), "top/pin");
    for (const RoundPlace& place : plan.places) {
      for (const RoundReading& each : place.readings) {
        EXPECT_EQ(each.who, "MK");
        EXPECT_FALSE(each.suspect);
      }
    }
    EXPECT_TRUE(plan.twice.empty());
    EXPECT_TRUE(bench.second("QX").places[0].readings.empty());
  }
  Planned bench({rows});
  const RoundPlan plan = bench.second("MK");
  EXPECT_EQ(plan.next, std::nullopt);
  ASSERT_EQ(plan.twice.size(), 8U);
  EXPECT_EQ(in_unit(plan.twice[0].other - plan.twice[0].own, UnitId::micrometre, 1), "3.0") << "144 and 141";
  EXPECT_EQ(in_unit(plan.twice[1].other - plan.twice[1].own, UnitId::micrometre, 1), "0.0");
  EXPECT_EQ(plan.places[0].readings.size(), 2U) << "now both";
  const auto nobody = plan_round(bench.recorded_job, nullptr, {"bore-3", {}, {}, true, {"", ""}});
  EXPECT_EQ(refused(nobody), "app.round_nobody");
}

TEST(RoundPlan, RepeatsAreHeldAgainstWhatTheGaugeMakesUsual) {
  std::vector<LinnetRow> rows = linnet_bore(1);
  rows.push_back(rows[0]);
  rows.back().reading = "82 acw";
  Planned bench({rows});
  const RoundPlan plan = bench.plan("bore-1");
  ASSERT_TRUE(plan.repeats_apart && plan.usual_apart);
  EXPECT_EQ(in_unit(*plan.repeats_apart, UnitId::micrometre, 1), "4.0") << "78 and 82 divisions of 1 µm";
  // By hand: 1.96·√2·√(u² + 0.001²/12) of the repeatability u that the gauge has after these two readings.
  double u = 0.0;
  double rounding = 0.0;
  for (const ErrorSource& each : bench.judged.value().sizes.sources) {
    if (each.component == "repeat") u = each.standard_uncertainty;
    if (each.component == "rounding" && each.scope == ErrorScope::reading) rounding = each.standard_uncertainty;
  }
  EXPECT_NEAR(rounding, 0.001 / std::sqrt(12.0), 1e-9);
  EXPECT_NEAR(*plan.usual_apart, 2.7718585822512662 * std::sqrt(u * u + rounding * rounding), 1e-9);
}

TEST(RoundPlan, ARoundIsOpenUntilItsClosingZero) {
  Planned open({linnet_bores(3)});
  EXPECT_FALSE(open.plan("bore-3").closed);
  EXPECT_FALSE(open.plan("bore-3").zero_wanted) << "bore 4 is still to be read under the same setting";
  Planned all({linnet_bores(4)});
  EXPECT_TRUE(all.plan("bore-3").zero_wanted);
  EXPECT_FALSE(all.plan("bore-3").temperatures_wanted);
  LinnetTold between{linnet_bores(3)};
  between.temperatures = false;
  EXPECT_FALSE(Planned(between).plan("bore-3").temperatures_wanted) << "nobody is asked for temperatures between two bores";
  LinnetTold cold{linnet_bores(4)};
  cold.temperatures = false;
  EXPECT_TRUE(Planned(cold).plan("bore-3").temperatures_wanted);
  LinnetTold shut{linnet_bores(4)};
  shut.closing = "2 acw";
  Planned closed(shut);
  EXPECT_TRUE(closed.plan("bore-3").closed);
  EXPECT_FALSE(closed.plan("bore-3").zero_wanted);
}

TEST(RoundPlan, AfterAZeroThatMovedTwoPlacesAreReadAgainAndNoZeroIsAskedForBefore) {
  LinnetTold told{linnet_bores(4)};
  told.closing = "6 acw";
  const RoundPlan shut = Planned(told).plan("bore-1");
  ASSERT_TRUE(shut.zero_moved);
  EXPECT_EQ(shut.zero_moved->again.size(), 2U);
  told.afresh = true;
  Planned afresh(told);
  const RoundPlan plan = afresh.plan({"bore-1", {}, "2", false, {}});
  EXPECT_EQ(plan.setting->setting->value.id, "bg-2");
  ASSERT_TRUE(plan.zero_moved);
  EXPECT_EQ(plan.next, std::nullopt) << "no new pass over everything";
  EXPECT_FALSE(plan.zero_wanted);
  EXPECT_FALSE(plan.temperatures_wanted);
  told.rows_afresh = {{"bore-1", "top", "thrust", "78 acw"}, {"bore-4", "top", "pin", "75 acw"}};
  const RoundPlan both = Planned(told).plan({"bore-4", {}, "1", false, {}});
  EXPECT_FALSE(both.zero_moved);
  EXPECT_TRUE(both.zero_wanted);
}

TEST(RoundPlan, ANewPassOverAPartThatWasReadCountsByItself) {
  Planned bench({linnet_bore(1)});
  EXPECT_EQ(bench.plan("bore-1").next, std::nullopt);
  EXPECT_EQ(bench.plan({"bore-1", {}, "1", false, {}}).next, std::nullopt) << "the same round";
  const RoundPlan anew = bench.plan({"bore-1", {}, "2", false, {}});
  EXPECT_EQ(anew.next, 0U);
  EXPECT_EQ(anew.round, "2");
  EXPECT_TRUE(anew.places[0].readings.empty());
  // Gone on with in another round after a break: what was read counts.
  Planned half({first_of(linnet_bore(1), 3)});
  EXPECT_EQ(half.plan({"bore-1", {}, "2", false, {}}).next, 3U);
}

TEST(RoundPlan, WhatIsNotThereIsSaid) {
  Planned bench(LinnetTold{});
  EXPECT_EQ(refused(plan_round(bench.recorded_job, nullptr, {"bore-9", {}, {}, false, {}})), "app.round_unknown_part");
  EXPECT_EQ(refused(plan_round(bench.recorded_job, nullptr, {"bore-1", "bg-9", {}, false, {}})), "app.round_unknown_setting");
}

TEST(RoundPlan, WithoutASettingThereIsNone) {
  LinnetTold told;
  told.pressed_in = "";
  Planned bench(told);
  const RoundPlan plan = bench.plan("bore-1");
  EXPECT_FALSE(plan.setting);
  EXPECT_FALSE(plan.gauge);
  EXPECT_EQ(plan.round, "1");
  EXPECT_EQ(plan.next, 0U);
}

}  // namespace
}  // namespace fettle
