#include "job/settings_in_use.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job/fold.h"
#include "job/folder_text.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

TypedQuantity needle(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, true, {}}, {}).value(); }
TypedQuantity warm(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(); }

EventEnvelope event(const std::string& id, Payload payload) { return {id, "tern", "d", 1, "", "", std::move(payload)}; }

EventEnvelope setting(const std::string& id, std::optional<TypedQuantity> closing = {}) {
  Setting made{"s", "bg", {}, {}, {}, {}, std::move(closing), {}, {}, {}};
  return event(id, SettingMade{std::move(made)});
}
EventEnvelope reading(const std::string& id, const std::string& round, std::optional<std::int64_t> order) {
  return event(id, ReadingTaken{{"bore-1", "top", "thrust", needle("31 acw"), "s", round, order, {}, {}, ReadingFlag::none, "", {}}});
}
EventEnvelope look(const std::string& id, const std::string& round, std::int64_t after, const std::string& shows, bool closes) {
  return event(id, ZeroLooked{"s", round, after, needle(shows), closes});
}

Setting in_use(const std::vector<EventEnvelope>& events) { return fold(events).job.settings.at(0).value; }

std::vector<std::string> checks(const Setting& setting) {
  std::vector<std::string> out;
  for (const ZeroCheck& each : setting.checks.value_or(std::vector<ZeroCheck>{})) {
    out.push_back(each.round + "/" + std::to_string(each.after_order) + ": " + each.shows.text);
  }
  return out;
}
std::string closing(const Setting& setting) { return setting.closing_zero ? setting.closing_zero->text : "-"; }

TEST(SettingsInUse, ALookInTheMiddleIsACheckAndOneAtTheEndCloses) {
  const Setting middle = in_use({setting("s1"), reading("r1", "1", 1), look("z1", "1", 1, "1 acw", false), reading("r2", "1", 2)});
  EXPECT_THAT(checks(middle), ElementsAre("1/1: 1 acw"));
  EXPECT_EQ(closing(middle), "-");
  const Setting end = in_use({setting("s1"), reading("r1", "1", 1), reading("r2", "1", 2), look("z1", "1", 2, "2 acw", true)});
  EXPECT_THAT(checks(end), IsEmpty());
  EXPECT_EQ(closing(end), "2 acw");
}

TEST(SettingsInUse, WhatIsReadAfterAClosedRoundMovesItsZeroIntoTheMiddle) {
  std::vector<EventEnvelope> events = {setting("s1"), reading("r1", "1", 1), look("z1", "1", 1, "2 acw", true), reading("r2", "2", 1)};
  EXPECT_THAT(checks(in_use(events)), ElementsAre("1/1: 2 acw"));
  EXPECT_EQ(closing(in_use(events)), "-") << "the second round is open";
  events.push_back(look("z2", "2", 1, "3 acw", true));
  EXPECT_THAT(checks(in_use(events)), ElementsAre("1/1: 2 acw"));
  EXPECT_EQ(closing(in_use(events)), "3 acw");
  events.push_back(event("w", EventWithdrawn{"z2", "typed wrong"}));
  EXPECT_EQ(closing(in_use(events)), "-");
  events.back() = event("w", EventWithdrawn{"r2", "typed wrong"});
  EXPECT_EQ(closing(in_use(events)), "3 acw");
  events.push_back(event("w2", EventWithdrawn{"z2", "typed wrong"}));
  EXPECT_EQ(closing(in_use(events)), "2 acw") << "nothing was read after the first round";
  EXPECT_THAT(checks(in_use(events)), IsEmpty());
}

TEST(SettingsInUse, OfTwoLooksInTheSamePlaceTheLaterCounts) {
  const Setting again = in_use({setting("s1"), reading("r1", "1", 1), look("z1", "1", 1, "5 acw", true), look("z2", "1", 1, "1 acw", false)});
  EXPECT_EQ(closing(again), "1 acw") << "the round stays closed";
  EXPECT_THAT(checks(again), IsEmpty());
}

TEST(SettingsInUse, AReadingWithoutOrderIsNotTakenForALaterOne) {
  EXPECT_EQ(closing(in_use({setting("s1"), look("z1", "1", 4, "1 acw", true), reading("r1", "", {})})), "1 acw");
}

TEST(SettingsInUse, AClosingLookTakesThePlaceOfTheOneThatWasEntered) {
  EXPECT_EQ(closing(in_use({setting("s1", needle("9 cw")), look("z1", "1", 4, "1 acw", false)})), "9 cw");
  EXPECT_EQ(closing(in_use({setting("s1", needle("9 cw")), look("z1", "1", 4, "1 acw", true)})), "1 acw");
}

TEST(SettingsInUse, TemperaturesFillWhatTheyName) {
  const std::vector<EventEnvelope> events = {setting("s1"), event("t1", TemperaturesTaken{"s", warm("19.5 °C"), warm("20 °C")}),
                                             event("t2", TemperaturesTaken{"s", warm("21 °C"), {}})};
  const Setting warmed = in_use(events);
  EXPECT_EQ(warmed.part_temperature->text, "21 °C");
  EXPECT_EQ(warmed.master_temperature->text, "20 °C");
  std::vector<EventEnvelope> back = events;
  back.push_back(event("w", EventWithdrawn{"t2", "of the air"}));
  EXPECT_EQ(in_use(back).part_temperature->text, "19.5 °C");
}

TEST(SettingsInUse, TheLastVerdictTakenOfAThingCounts) {
  const auto taken = [](const std::string& id, std::optional<std::string> limit, TakenWord word) {
    return event(id, VerdictTaken{"bore-1", std::move(limit), word, "seen", VerdictWord::too_close});
  };
  std::vector<EventEnvelope> events = {taken("v1", {}, TakenWord::within), taken("v2", "size", TakenWord::within), taken("v3", {}, TakenWord::beyond)};
  const Job job = fold(events).job;
  ASSERT_EQ(job.taken.size(), 2U);
  EXPECT_EQ(job.taken[0].event, "v2");
  EXPECT_EQ(job.taken[1].event, "v3");
  events.push_back(event("w", EventWithdrawn{"v3", "too soon"}));
  EXPECT_EQ(fold(events).job.taken.at(0).event, "v1");
}

TEST(SettingsInUse, TheReadableFolderHoldsWhatTheyCameTo) {
  const auto id = [](char digit) { return std::string(32, digit); };
  const Part bore{"bore-1", "cylinder-bore", "", {}, {StepKind::unknown, {}, ""}, Condition::worn};
  Gauge gauge{};
  gauge.id = "bg";
  gauge.preset = "dial-bore-gauge-0-001-mm";
  EventEnvelope called_out = reading(id('5'), "1", 1);
  std::get<ReadingTaken>(called_out.payload).reading.read_by = "MW";
  const WrittenFolder folder =
      written_folder({event(id('1'), JobOpened{"Tern", {}, {}, UnitId::millimetre, ""}), event(id('2'), PartEntered{bore}),
                      event(id('3'), GaugeRegistered{gauge}), setting(id('4')), called_out, look(id('6'), "1", 0, "1 acw", false),
                      look(id('7'), "1", 1, "2 acw", true), event(id('8'), TemperaturesTaken{"s", warm("19.5 °C"), {}}),
                      event(id('9'), VerdictTaken{"bore-1", {}, TakenWord::beyond, "", VerdictWord::beyond})})
          .value();
  EXPECT_THAT(folder.refused, IsEmpty());
  EXPECT_NE(folder.texts.job_toml.find("closing_zero = \"2 acw\""), std::string::npos) << folder.texts.job_toml;
  EXPECT_NE(folder.texts.job_toml.find("1 acw"), std::string::npos);
  EXPECT_NE(folder.texts.job_toml.find("19.5 °C"), std::string::npos);
  std::vector<std::string> left_out;
  for (const Message& each : folder.left_out) left_out.push_back(each.key);
  EXPECT_THAT(left_out, ElementsAre("folder.left_out_taken", "folder.left_out_read_by"));
}

}  // namespace
}  // namespace fettle
