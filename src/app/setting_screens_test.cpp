#include "app/setting_screens.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/linnet_on_bench.h"
#include "text/sentence.h"

namespace fettle {
namespace {

struct Screens : LinnetOnBench {
  using LinnetOnBench::LinnetOnBench;
  RecordedJob recorded_job = job();
  [[nodiscard]] SettingScreens ask(const std::string& what_for, std::optional<std::string> size = {}, std::optional<std::string> master = {}, std::optional<std::string> set = {}) {
    recorded_job = job();
    const auto out = setting_screens(recorded_job, {"bg", what_for, std::move(size), std::move(master), std::move(set)});
    FETTLE_ASSERT(out.ok(), out.ok() ? "" : out.problems().front().code);
    return out.value();
  }
};

std::vector<std::string> codes(const Problems& problems) {
  std::vector<std::string> out;
  for (const Problem& each : problems) out.push_back(each.code);
  return out;
}

TEST(SettingScreens, TheMastersOwnZeroIsAllowedFor) {
  Screens bench(LinnetTold{});
  const SettingScreens screens = bench.ask("cylinder-bore");
  ASSERT_TRUE(screens.up);
  // By hand: 78 mm are 3.070866 in; 0.0001 in more for what the micrometer shows too much, 3.070966: the nearest line is 3.0710.
  EXPECT_EQ(screens.up->thimble->nearest.digits, "3.0710");
  // Really set 3.0709 in = 78.00086 mm: 0.9 µm more, 4 % of 0.020.
  EXPECT_EQ(in_unit((screens.up->really_set - screens.up->wanted).ratio(), UnitId::micrometre, 1), "0.9");
  EXPECT_EQ(in_unit(screens.zero_error->ratio(), UnitId::inch, 4), "0.0001");
  EXPECT_EQ(screens.master->id, "mic");
  EXPECT_THAT(codes(screens.problems), ::testing::ElementsAre("app.set_no_kit")) << "its rods were never entered";
  EXPECT_EQ(screens.last->value.id, "bg-1");
}

TEST(SettingScreens, WhatTheMicrometerWasReallyLockedAtCounts) {
  Screens bench(LinnetTold{});
  const SettingScreens screens = bench.ask("cylinder-bore", {}, {}, "3.0709 in");
  ASSERT_TRUE(screens.up);
  // By hand: it shows 0.0001 in too much, so it is 3.0708 in = 77.99832 mm, and 78.100 lies 101.68 divisions off (99.14 from the 3.0710 that was advised).
  EXPECT_EQ(in_unit(screens.up->really_set.ratio(), UnitId::millimetre, 4), "77.9983");
  const auto service = std::find_if(screens.up->pointers.begin(), screens.up->pointers.end(), [](const LimitPointer& each) { return each.limit == "service"; });
  ASSERT_NE(service, screens.up->pointers.end());
  EXPECT_EQ(service->at_limit.divisions.decimal(2), "101.68");
  EXPECT_EQ(screens.up->thimble->nearest.digits, "3.0710") << "the advice stays";
  EXPECT_EQ(screens.up->proof->from.digits, "3.0709");
}

TEST(SettingScreens, WhatItCannotBeLockedAtIsSaidBesideTheScreens) {
  Screens bench(LinnetTold{});
  for (const auto& [set, code] : {std::pair("2.0709 in", "app.set_master_unfit"), std::pair("0 in", "app.set_size_positive")}) {
    const SettingScreens screens = bench.ask("cylinder-bore", {}, {}, set);
    ASSERT_TRUE(screens.up) << set;
    EXPECT_FALSE(screens.up->locked);
    EXPECT_THAT(codes(screens.problems), ::testing::ElementsAre(code, "app.set_no_kit"));
  }
}

TEST(SettingScreens, TheSizeIsKnownWhereNoMasterCanLendIt) {
  Screens bench(LinnetTold{});
  const SettingScreens screens = bench.ask("cylinder-bore", {}, "bg");
  EXPECT_FALSE(screens.up);
  ASSERT_TRUE(screens.wanted);
  EXPECT_EQ(in_unit(screens.wanted->ratio(), UnitId::millimetre, 3), "78.000");
}

TEST(SettingScreens, AnIdIsNeverUsedAgain) {
  Screens bench(LinnetTold{});
  EXPECT_EQ(bench.ask("bore-1").setting, "bg-2");
  Setting second = bench.job().job.settings.front().value;
  second.id = "bg-2";
  const auto made = append(bench.store, bench.job(), {SettingMade{second}}, bench.doing);
  ASSERT_TRUE(made.ok());
  ASSERT_TRUE(append(bench.store, bench.job(), {EventWithdrawn{made.value().front(), "wrong"}}, bench.doing).ok());
  EXPECT_EQ(bench.ask("bore-1").setting, "bg-3") << "it was taken back, and stays in the log";
}

TEST(SettingScreens, WithoutTheSizeTheRestIsThere) {
  LinnetTold told;
  told.limits = false;
  Screens bench(told);
  const SettingScreens screens = bench.ask("cylinder-bore");
  EXPECT_FALSE(screens.up);
  EXPECT_FALSE(screens.wanted);
  EXPECT_THAT(codes(screens.problems), ::testing::ElementsAre("app.set_no_size"));
  EXPECT_EQ(screens.masters.size(), 1U);
  EXPECT_TRUE(bench.ask("cylinder-bore", "78.000 mm").up);
}

TEST(SettingScreens, WhatIsNotThereIsRefused) {
  Screens bench(LinnetTold{});
  EXPECT_EQ(refused(setting_screens(bench.job(), {"no-such", "bore-1", {}, {}})), "app.set_unknown_gauge");
  EXPECT_EQ(refused(setting_screens(bench.job(), {"mic", "bore-1", {}, {}})), "app.set_not_a_comparison");
  EXPECT_EQ(refused(setting_screens(bench.job(), {"bg", "no-such", {}, {}})), "app.set_for_unknown");
}

std::string outcome(const Job& job, const std::string& shows, std::optional<NeedleSide> side) {
  const auto found = prove_setting(job, {{"bore-gauge", "cylinder-bore", {}, {}}, shows, side});
  return found.ok() ? std::string(proof_outcome_name(found.value().outcome)) : found.problems().front().code;
}

// The example: opened by .0030 in, 76.2 divisions of a dial of 200. Twice as many are 152.4, half 38.1.
TEST(ProofOfASetting, TheNeedleTellsWhatIsWrong) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  const Job job = bench.recorded("tern-curlew-3").job;
  constexpr auto kClockwise = NeedleSide::clockwise;
  constexpr auto kAnticlockwise = NeedleSide::anticlockwise;
  EXPECT_EQ(outcome(job, "76", kAnticlockwise), "right");
  EXPECT_EQ(outcome(job, "77", kAnticlockwise), "right");
  EXPECT_EQ(outcome(job, "78", kAnticlockwise), "right") << "two divisions, as well as a needle is read twice";
  EXPECT_EQ(outcome(job, "79", kAnticlockwise), "other");
  EXPECT_EQ(outcome(job, "76", kClockwise), "reversed");
  EXPECT_EQ(outcome(job, "152", kAnticlockwise), "half");
  EXPECT_EQ(outcome(job, "48", kClockwise), "half") << "the same place seen the other way round";
  EXPECT_EQ(outcome(job, "38", kAnticlockwise), "twice");
  EXPECT_EQ(outcome(job, "38 acw", {}), "twice") << "the side in the text";
  EXPECT_EQ(outcome(job, "100", kAnticlockwise), "other");
  EXPECT_EQ(outcome(job, "0", {}), "other");
  EXPECT_EQ(outcome(job, "furlong", {}).substr(0, 6), "entry.");
  EXPECT_EQ(outcome(job, "276", kAnticlockwise), "right") << "a turn further is the same place";
  EXPECT_EQ(outcome(job, "200000000000000076", kAnticlockwise), "right") << "however many turns, at once";
}

TEST(ProofOfASetting, WithoutASenseThereIsNone) {
  LinnetTold told;
  told.pressed_in = "";
  LinnetOnBench bench(told);
  EXPECT_EQ(refused(prove_setting(bench.job().job, {{"bg", "bore-1", {}, {}}, "101", NeedleSide::anticlockwise})), "app.proof_none");
  const RecordedJob job = bench.job();
  EXPECT_FALSE(setting_screens(job, {"bg", "bore-1", {}, {}}).value().pressed_in);
}

}  // namespace
}  // namespace fettle
