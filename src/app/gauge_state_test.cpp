#include "app/gauge_state.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/bench.h"
#include "app/linnet_on_bench.h"
#include "app/round_hands.h"
#include "text/sentence.h"

namespace fettle {
namespace {

// The setting is accepted at 08:12:00.
const std::string kAfter59 = "2031-05-04T09:11:59.000000Z";
const std::string kAfter60 = "2031-05-04T09:12:00.000000Z";

std::vector<std::string> why(const SettingNow& setting) {
  std::vector<std::string> out;
  for (const Message& each : setting.why_stale) out.push_back(each.key);
  return out;
}

PartOnBench bore(const RecordedJob& job) { return on_bench(job.job, job.job.parts.front().value, catalogue()); }

TEST(GaugeState, ASettingGoesStaleAfterAnHour) {
  LinnetOnBench bench({linnet_bore(1)});
  const RecordedJob job = bench.job();
  const Kept<Setting>& setting = job.job.settings.front();
  EXPECT_EQ(setting_now(job, setting, {"", kAfter59}).age_minutes, 59);
  EXPECT_TRUE(why(setting_now(job, setting, {"", kAfter59})).empty());
  EXPECT_THAT(why(setting_now(job, setting, {"", kAfter60})), ::testing::ElementsAre("setting_now.old"));
  EXPECT_EQ(setting_now(job, setting, {"", "2031-05-04T08:00:00.000000Z"}).age_minutes, std::nullopt) << "a clock that goes backwards tells nothing";
}

TEST(GaugeState, ALookAtTheZeroMakesItFreshAgain) {
  LinnetOnBench bench({linnet_bore(1)});
  bench.clock.at = bench.doing.at = "2031-05-04T09:05:00.000000Z";
  const TypedQuantity shows = read_quantity("1 acw", {UnitId::division, Dimension::divisions, {}, {}, true, {}}, {}).value();
  ASSERT_TRUE(append(bench.store, bench.job(), {ZeroLooked{"bg-1", "1", 8, shows, false}}, bench.doing).ok());
  const RecordedJob job = bench.job();
  const SettingNow now = setting_now(job, job.job.settings.front(), {"", kAfter60});
  EXPECT_EQ(now.age_minutes, 7);
  EXPECT_TRUE(now.why_stale.empty());
  EXPECT_FALSE(now.closed);
}

/// A setting and a look at its zero, made at one time and accepted at another.
std::optional<std::int64_t> age_of(const std::string& made, const std::string& accepted, bool look) {
  LinnetOnBench bench({linnet_bore(1)});
  bench.clock.at = accepted;
  Setting own = bench.job().job.settings.front().value;
  own.id = "bg-2";
  const TypedQuantity shows = read_quantity("1 acw", {UnitId::division, Dimension::divisions, {}, {}, true, {}}, {}).value();
  const Payload payload = look ? Payload(ZeroLooked{"bg-1", "1", 8, shows, false}) : Payload(SettingMade{own});
  EXPECT_TRUE(append(bench.store, bench.job(), {payload}, {"M", made}).ok());
  const RecordedJob job = bench.job();
  return setting_now(job, look ? job.job.settings.front() : job.job.settings.back(), {"", kAfter60}).age_minutes;
}

/// That a diameter is read under, at whatever place.
const Kept<Setting>* setting_for(const RecordedJob& job, const PartOnBench& part) {
  const HandsOfPart hands = hands_of(job, part, {}, {});
  return hands.hands.empty() ? nullptr : hands.hands.front().setting.setting;
}

TEST(GaugeState, ASettingIsAsOldAsTheEarlierOfItsTwoClocksSays) {
  for (const bool look : {false, true}) {
    EXPECT_EQ(age_of("2031-05-04T10:22:00+02:00", "2031-05-04T09:10:00.000000Z", look), 50) << "made while the server was away";
    EXPECT_EQ(age_of("2031-05-04T11:40:00+02:00", "2031-05-04T09:10:00.000000Z", look), 2) << "a device whose clock runs ahead";
    EXPECT_EQ(age_of("2031-05-04 08:22", "2031-05-04T09:10:00.000000Z", look), 2) << "without an offset it is no moment";
    EXPECT_EQ(age_of("", "2031-05-04T09:10:00.000000Z", look), 2);
  }
}

TEST(GaugeState, AnotherPersonLooksAtTheZeroFirst) {
  LinnetOnBench bench(LinnetTold{});
  Setting own = bench.job().job.settings.front().value;
  own.id = "bg-2";
  own.afresh_of = "bg-1";
  ASSERT_TRUE(append(bench.store, bench.job(), {SettingMade{own}}, {"MK", bench.doing.at}).ok());
  const RecordedJob job = bench.job();
  const Kept<Setting>& setting = job.job.settings.back();
  ASSERT_EQ(setting.value.id, "bg-2");
  EXPECT_TRUE(why(setting_now(job, setting, {"MK", bench.clock.at})).empty());
  EXPECT_THAT(why(setting_now(job, setting, {"JB", bench.clock.at})), ::testing::ElementsAre("setting_now.other_person"));
  EXPECT_EQ(setting_for(job, bore(job)), &job.job.settings.back()) << "the last one made";
}

TEST(GaugeState, OnlyWhatReachesThePartCanReadIt) {
  LinnetOnBench bench({linnet_bore(1)});
  const RecordedJob job = bench.job();
  const PartOnBench part = bore(job);
  const std::vector<GaugeNow> gauges = gauges_now(job, &part, {"", bench.clock.at});
  ASSERT_EQ(gauges.size(), 2U);
  EXPECT_EQ(gauges[0].gauge->id, "bg") << "the last used first";
  EXPECT_FALSE(gauges[0].why_not);
  EXPECT_EQ(gauges[0].unit, UnitId::division);
  EXPECT_EQ(gauges[0].sort, GaugeSort::comparison);
  EXPECT_EQ(gauges[1].why_not->key, "gauge_now.feature.outside");
  EXPECT_EQ(gauges[1].unit, UnitId::inch);
  PartOnBench journal = on_bench(job.job, {"m", "main-journal", "1", {}, {StepKind::standard, {}, ""}, Condition::worn}, catalogue());
  EXPECT_EQ(gauges_now(job, &journal, {})[1].why_not, std::nullopt) << "no limit tells the journal's size";
  PartOnBench spring = on_bench(job.job, {"s", "compression", "1", {}, {StepKind::standard, {}, ""}, Condition::worn}, catalogue());
  EXPECT_EQ(gauges_now(job, &spring, {})[0].why_not->key, "gauge_now.other_quantity");
}

TEST(GaugeState, ASettingForAnotherSizeIsNotTaken) {
  LinnetTold told;
  FolderTexts texts = linnet(told);
  const std::string wanted = "wanted = \"78.000 mm\"\nset = \"3.0709 in\"";
  texts.job_toml.replace(texts.job_toml.find(wanted), wanted.size(), "wanted = \"82.000 mm\"\nset = \"3.2283 in\"");
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(texts).ok());
  const RecordedJob job = bench.recorded(kLinnet);
  EXPECT_EQ(setting_for(job, bore(job)), nullptr);
}

TEST(GaugeState, RoundsAreCountedOn) {
  LinnetOnBench bench({linnet_bore(1)});
  EXPECT_EQ(next_round(bench.job().job), "2");
  EXPECT_EQ(next_round(LinnetOnBench(LinnetTold{}).job().job), "1");
}

TEST(GaugeState, HowLongAgoIsSaidRoughly) {
  EXPECT_EQ(ago(1).key, "ago.now");
  EXPECT_EQ(sentence(ago(20), Language::english), "20 minutes ago");
  EXPECT_EQ(sentence(ago(3 * 60 + 50), Language::english), "3 hours ago");
  EXPECT_EQ(sentence(ago(5 * 24 * 60), Language::german), "vor 5 Tagen");
  EXPECT_EQ(sentence(ago(21 * 24 * 60), Language::english), "3 weeks ago");
  EXPECT_EQ(sentence(ago(3 * 365 * 24 * 60), Language::english), "3 years ago");
}

TEST(GaugeState, WhatThePageReadsIsWhatSomeGaugeOfItMeasures) {
  std::vector<std::string> at_desk;
  for (const Kind& each : catalogue().kinds) {
    if (!read_with_the_page(catalogue(), each)) at_desk.push_back(each.id);
  }
  EXPECT_THAT(at_desk, ::testing::IsEmpty());
  Kind torque = *catalogue().kind("rod-bolt");
  for (Station& each : torque.layout.stations) each.quantity = Dimension::torque;
  EXPECT_FALSE(read_with_the_page(catalogue(), torque)) << "no gauge of the catalogue reads a torque";
}

}  // namespace
}  // namespace fettle
