#include "wire/event_json.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "wire/event_words.h"

namespace fettle {
namespace {

const std::string kId = "00112233445566778899aabbccddeeff";

TypedQuantity typed(const std::string& text, std::optional<NeedleSide> plus = {}) {
  return read_quantity(text, {{}, {}, DecimalMark::point, {}, plus.has_value(), plus}, {"job.toml", 7, 3}).value();
}

EventEnvelope event(Payload payload) {
  return {kId, "tern", "phone-2", 17, "2031-05-04 10:12 +02:00", "M", std::move(payload)};
}

/// Every optional member filled.
LimitSheet full_sheet() {
  const Printed both{typed("84.000 mm"), typed("3.3071 in")};
  SheetRow row{};
  row.id = "bore";
  row.what = "Cylinder bore";
  row.kind = "cylinder-bore";
  row.characteristic = Family::taper;
  row.definition = "tap-2";
  row.page = "12";
  row.step = both;
  row.grade = "A";
  row.fresh = {both, {typed("84.020 mm"), {}}};
  row.wear = both;
  row.per = both;
  row.standard = both;
  row.fit = "84 H7";
  row.stages = {{both, both}};
  row.sequence = "2-1";
  row.quantity = both;
  row.once = true;
  row.from = "1 + bore";
  row.choose = "+0.005";
  row.note = "1)";
  return {"Book", "2", UnitFamily::inch, {row}, {{"series", "bore", "wear", "84 mm", Decided::put_right, "85 mm", "JB", "2026-01-05"}}};
}

std::vector<Payload> full_payloads() {
  const ErrorComponent component{"flex",
                                 ErrorScope::master,
                                 ErrorShape::rectangular,
                                 {Ratio::of(1, 3), UnitId::micrometre},
                                 "1/3 µm",
                                 8,
                                 ComponentUse::read_on_part,
                                 MasterKind::ring,
                                 Mark::worked_out,
                                 "stated in the job"};
  return {JobOpened{"Tern \"β\"\n\u2028", DecimalMark::comma, TradeWords::metric, UnitId::inch, "a\\b\tc"},
          EngineDescribed{
              "Curlew 3", 3, {"A", "B"}, "pulley end", NeedleSide::anticlockwise, "flywheel end", "port side", "r"},
          LayoutChosen{"cylinder-bore",
                       {{{"top", StationRole::first, true, Length::counts(-1)},
                         {"mid", StationRole::inner, false, std::nullopt}},
                        {{"thrust", Ratio::of(1, 7), true}, {"pin", Ratio(90), false}}}},
          PartEntered{{"bore-1",
                       "cylinder-bore",
                       "A3",
                       "grey-iron",
                       {StepKind::offset, typed("+0.50 mm"), "crown"},
                       Condition::machined}},
          FindingSeen{{"bore-1", "crack", FindingWeight::needs_test, "at the top", typed("1/64 in"), FindingSort::crack, FindingTest::dye, TestOutcome::found, "top",
                       "thrust", "abababababababababababababababababababababababababababababababab"}},
          GaugeRegistered{{"bg",
                           "dial-bore-gauge-0-001-mm",
                           typed("0.001 mm"),
                           typed("0.2 mm"),
                           NeedleSide::clockwise,
                           typed("3.0002 in"),
                           typed("3.0000 in"),
                           typed("84.000 mm"),
                           {component}}},
          SettingMade{{"s", "bg", "mic", typed("84 mm"), typed("3.307 in"), typed("0 div", NeedleSide::clockwise),
                       typed("1.5 div", NeedleSide::anticlockwise), NeedleSide::clockwise, typed("68.0 °F"),
                       typed("19.5 °C")}},
          GaugeFoundOut{{"mic", "first", "third", typed("0.0003 in"), typed("0.01 mm"), "fell off the bench"}},
          ReadingTaken{{"bore-1", "top", "thrust", typed("57 acw"), "s", "1", 4, 2, typed("20 °C"),
                        ReadingFlag::deposit, "carbon", kId}},
          LimitEntered{{"taper",
                        "cylinder-bore",
                        "tap-6",
                        LimitRole::service,
                        LimitSide::at_most,
                        typed(".002\""),
                        typed("100 mm"),
                        typed("84.000 mm"),
                        {"the book", "2nd", "14", "accepted by M", true, true}}},
          RuleChosen{{RuleKind::reading, Ratio::of(19, 20), TieRule::equal_is_beyond}},
          EventWithdrawn{kId, "typed in the wrong column"},
          FileAttached{std::string(64, 'a'), "image/jpeg", "bore 2.jpg", "bore-2", "score at the top"},
          ZeroLooked{"s", "1", 12, typed("1.5 div", NeedleSide::anticlockwise), true},
          TemperaturesTaken{"s", typed("19.5 °C"), typed("68.0 °F")},
          VerdictTaken{"bore-1", "taper", TakenWord::within, "measured again at the shop", VerdictWord::too_close},
          SheetEntered{"book", full_sheet(), "misread"},
          StepSeen{{"bore-1", "bore-2"}, {StepKind::offset, typed("1/64 in"), "crown"}},
          StripStepAnswered{"compression-test", StripAnswer::cannot, "starter is out"},
          PartsReady{{"bore-1"}, MeasuredWhen::clean, "2031-05-04 10:00 +02:00"},
          GaugeStudied{{"g", "A. Wren", typed("4.2 µm"), 60, StudyMethod::ranges, 10, 3, 90, "2031-05-01", std::string(64, 'b'), "new stylus"}},
          QuestionAnswered{"bore-1", "top", "thrust", "s", "28 cw", "needle-side", 93, QuestionAnswer::agrees_with_expectation, "28 acw"}};
}

/// Every optional member left out.
std::vector<Payload> bare_payloads() {
  return {JobOpened{"", {}, {}, UnitId::millimetre, ""},
          EngineDescribed{"", {}, {}, "", {}, "", "", ""},
          LayoutChosen{"journal", {}},
          PartEntered{{"p", "journal", "", {}, {StepKind::unknown, {}, ""}, Condition::worn}},
          FindingSeen{{"p", "w", FindingWeight::note, "", {}}},
          GaugeRegistered{{"g", "p", {}, {}, {}, {}, {}, {}, {}}},
          SettingMade{{"s", "g", {}, {}, {}, {}, {}, {}, {}, {}}},
          GaugeFoundOut{{"mic", {}, {}, {}, {}, ""}},
          ReadingTaken{{"p", "t", "d", typed("84 mm"), "s", "", {}, {}, {}, ReadingFlag::none, "", {}}},
          LimitEntered{{"l",
                        "k",
                        "d",
                        LimitRole::fresh,
                        LimitSide::at_least,
                        typed("1 mm"),
                        {},
                        {},
                        {"", "", "", "", false, false}}},
          RuleChosen{usual_rule()},
          EventWithdrawn{kId, ""},
          FileAttached{std::string(64, '0'), "application/pdf", "", {}, ""},
          ZeroLooked{"s", "", 0, typed("0 div", NeedleSide::clockwise), false},
          TemperaturesTaken{"s", {}, {}},
          VerdictTaken{"p", {}, TakenWord::beyond, "", VerdictWord::beyond},
          SheetEntered{"s", {}, ""},
          StepSeen{{}, {StepKind::unknown, {}, ""}},
          StripStepAnswered{"s", StripAnswer::done, ""},
          PartsReady{{}, MeasuredWhen::rested, ""},
          GaugeStudied{{"g", {}, typed("0.001 in"), 1, StudyMethod::variances, {}, {}, {}, "", "", ""}},
          QuestionAnswered{"p", "t", "d", "s", "84 mm", "far-off", 0, QuestionAnswer::later, {}}};
}

void expect_round_trip(const Payload& payload) {
  const EventEnvelope before = event(payload);
  const std::string line = event_json(before);
  SCOPED_TRACE(line);
  EXPECT_EQ(line.find('\n'), std::string::npos);
  const auto after = read_event(line, {});
  ASSERT_TRUE(after.ok()) << after.problems().front().code;
  EXPECT_TRUE(after.value() == without_places(before));
  EXPECT_EQ(event_json(after.value()), line);
}

TEST(EventJson, EveryPayloadComesBackAsItWas) {
  for (const auto& payloads : {full_payloads(), bare_payloads()}) {
    // One of every type, in the order of the variant: a type added there fails here.
    ASSERT_EQ(payloads.size(), std::variant_size_v<Payload>);
    for (std::size_t i = 0; i < payloads.size(); ++i) {
      ASSERT_EQ(payloads[i].index(), i);
      expect_round_trip(payloads[i]);
    }
  }
}

TEST(EventJson, TheLineIsTheOneThatWasAgreed) {
  // Written by hand from event.schema.json; 31 div anticlockwise is minus 31 (clockwise counts positive).
  const Reading reading{"bore-1", "top", "thrust", typed("31 acw"), "s", "", {}, 2, {}, ReadingFlag::none, "", {}};
  EXPECT_EQ(
      event_json(event(ReadingTaken{reading})),
      R"({"id":"00112233445566778899aabbccddeeff","job":"tern","device":"phone-2","device_sequence":17,)"
      R"("made_at":"2031-05-04 10:12 +02:00","who":"M","type":"reading-taken","version":1,)"
      R"("payload":{"part":"bore-1","station":"top","direction":"thrust","quantity":{"text":"31 acw","dimension":"divisions",)"
      R"("unit":"div","numerator":"-31","denominator":"1","decimals":0,"needle":"anticlockwise"},"setting":"s","round":"",)"
      R"("repeat":2,"flag":"none","note":""}})");
}

/// Written by hand from event.schema.json, and held against it by tests/cli/check_schemas.py: full_payloads(), then
/// bare_payloads(). Lines of a version that was released are kept for ever.
TEST(EventJson, TheKeptLinesAreReadAndWrittenTheSame) {
  std::ifstream file(FETTLE_SOURCE_DIR "/tests/cli/event_lines_v1.jsonl");
  std::vector<Payload> payloads = full_payloads();
  for (const Payload& each : bare_payloads()) payloads.push_back(each);
  std::string line;
  for (const Payload& payload : payloads) {
    ASSERT_TRUE(std::getline(file, line));
    EXPECT_EQ(event_json(event(payload)), line);
    const auto read = read_event(line, {});
    ASSERT_TRUE(read.ok()) << read.problems().front().code << " " << line;
    EXPECT_TRUE(read.value() == without_places(event(payload))) << line;
  }
  EXPECT_FALSE(std::getline(file, line));
}

/// Members that came later are left out where there is nothing, so that the lines above stay as they are.
TEST(EventJson, WhatCameLaterIsKeptToo) {
  const GaugeKit kit{{typed("80 mm"), typed("3 in")}, {typed("1/32 in")}, {}, RodsReach::middle_of_travel, typed("1.2 mm"), typed("0.1 mm"),
                     typed("50 mm"), typed("150 mm")};
  const GaugeKit bare{{}, {}, {typed("50 mm")}, RodsReach::contact_free, typed("1.2 mm"), {}, {}, {}};
  for (const GaugeKit& each : {kit, bare}) expect_round_trip(GaugeRegistered{{"g", "p", {}, {}, {}, {}, {}, {}, {}, each}});
  Setting setting{"s", "g", {}, {}, {}, {}, {}, {}, {}, {}};
  setting.opening_zeros = {typed("0 div", NeedleSide::clockwise), typed("1 div", NeedleSide::anticlockwise)};
  expect_round_trip(SettingMade{setting});
  Setting checked = setting;
  checked.checks = {{"1", 12, typed("1 div", NeedleSide::anticlockwise)}, {"", 0, typed("0 div", NeedleSide::clockwise)}};
  checked.afresh_of = "before";
  expect_round_trip(SettingMade{checked});
  Reading corrected{"bore-1", "top", "thrust", typed("31 acw"), "s", "", {}, 2, {}, ReadingFlag::none, "", kId};
  corrected.why = "digits swapped";
  corrected.read_by = "JB";
  expect_round_trip(ReadingTaken{corrected});
  EngineDescribed engine{"Curlew 3", {}, {}, "", {}, "", "", ""};
  engine.serial = "K 4711";
  expect_round_trip(engine);
  LimitSheet sided = full_sheet();
  sided.rows.front().worn = LimitSide::at_least;
  expect_round_trip(SheetEntered{"book", sided, "misread"});
  EXPECT_NE(event_json(event(SheetEntered{"book", sided, "misread"})).find(R"("worn":"at-least","per":)"), std::string::npos);
  // Written by hand from event.schema.json.
  const std::string zero = R"({"text":"0 div","dimension":"divisions","unit":"div","numerator":"0","denominator":"1","decimals":0})";
  const std::string one =
      R"({"text":"1 div","dimension":"divisions","unit":"div","numerator":"-1","denominator":"1","decimals":0,"needle":"anticlockwise"})";
  EXPECT_NE(event_json(event(SettingMade{setting})).find(R"("payload":{"id":"s","gauge":"g","opening_zeros":[)" + zero + "," + one + "]}"),
            std::string::npos)
      << event_json(event(SettingMade{setting}));
}

TEST(EventJson, LengthsKeepEveryCount) {
  // 1 count is 0.1 nm = 0.0000001 mm; 3.307 in = 3.307 x 25.4 mm = 83.9978 mm.
  const std::string layout = event_json(event(full_payloads()[2]));
  EXPECT_NE(layout.find(R"("depth":{"value":"-0.0000001","unit":"mm"})"), std::string::npos) << layout;
  const std::string setting = event_json(event(full_payloads()[6]));
  EXPECT_NE(setting.find(R"("numerator":"3307","denominator":"1000","decimals":3,"mm":"83.9978000")"),
            std::string::npos)
      << setting;
}

TEST(EventJson, EveryUnitComesBack) {
  for (const Unit& unit : all_units()) {
    const ErrorComponent component{
        "c", ErrorScope::round, ErrorShape::normal, {Ratio(1), unit.id}, "1", {}, ComponentUse::always, {}, Mark::seen,
        ""};
    expect_round_trip(GaugeRegistered{{"g", "p", {}, {}, {}, {}, {}, {}, {component}}});
  }
}

template <class E, std::size_t N>
void expect_complete(const WordTable<E, N>& table) {
  for (std::size_t i = 0; i < N; ++i) {
    EXPECT_TRUE(std::any_of(table.begin(), table.end(), [&](const auto& entry) {
      return entry.second == static_cast<E>(i);
    })) << i;
  }
}

TEST(EventWords, NoValueIsLeftOutAndNoneStandsTwice) {
  using namespace json;
  expect_complete(kMarkWords);
  expect_complete(kTradeWords);
  expect_complete(kSideWords);
  expect_complete(kRoleWords);
  expect_complete(kStepWords);
  expect_complete(kConditionWords);
  expect_complete(kWeightWords);
  expect_complete(kFlagWords);
  expect_complete(kLimitRoleWords);
  expect_complete(kLimitSideWords);
  expect_complete(kRuleWords);
  expect_complete(kTieWords);
  expect_complete(kScopeWords);
  expect_complete(kShapeWords);
  expect_complete(kUseWords);
  expect_complete(kMasterWords);
  expect_complete(kTrustWords);
  expect_complete(kTakenWords);
  expect_complete(kVerdictWords);
}

TEST(EventWords, AreThoseOfTheJudgement) {
  for (const auto& [word, value] : json::kRoleWords) EXPECT_EQ(word, role_name(value));
  for (const auto& [word, value] : json::kStepWords) EXPECT_EQ(word, step_kind_name(value));
  for (const auto& [word, value] : json::kConditionWords) EXPECT_EQ(word, condition_name(value));
  for (const auto& [word, value] : json::kWeightWords) EXPECT_EQ(word, weight_name(value));
  for (const auto& [word, value] : json::kLimitRoleWords) EXPECT_EQ(word, role_name(value));
  for (const auto& [word, value] : json::kLimitSideWords) EXPECT_EQ(word, side_name(value));
  for (const auto& [word, value] : json::kRuleWords) EXPECT_EQ(word, rule_kind_name(value));
  for (const auto& [word, value] : json::kTieWords) EXPECT_EQ(word, tie_rule_name(value));
  for (const auto& [word, value] : json::kScopeWords) EXPECT_EQ(word, scope_name(value));
  for (const auto& [word, value] : json::kShapeWords) EXPECT_EQ(word, shape_name(value));
  for (const auto& [word, value] : json::kVerdictWords) EXPECT_EQ(word, verdict_word_name(value));
  for (const auto& [word, value] : json::kMasterWords) EXPECT_EQ(word, master_kind_name(value));
}

TEST(EventJson, PlacesAreNoPartOfAnEvent) {
  EventEnvelope elsewhere = event(full_payloads()[8]);
  std::get<ReadingTaken>(elsewhere.payload).reading.quantity.place = {"readings.csv", 99, 1};
  EXPECT_EQ(event_json(elsewhere), event_json(event(full_payloads()[8])));
  EXPECT_EQ(std::get<ReadingTaken>(without_places(elsewhere).payload).reading.quantity.place, Place{});
  EXPECT_EQ(std::get<ReadingTaken>(without_places(elsewhere).payload).reading.temperature->place, Place{});
}

TEST(EventJson, WhatCouldNotBeReadBackIsNotWritten) {
  EventEnvelope bad_id = event(RuleChosen{usual_rule()});
  bad_id.id = "e1";
  EXPECT_THROW(static_cast<void>(event_json(bad_id)), InternalError);
  EventEnvelope bad_text = event(RuleChosen{usual_rule()});
  bad_text.who = "\xff";
  EXPECT_THROW(static_cast<void>(event_json(bad_text)), InternalError);
  EventEnvelope bad_number = event(RuleChosen{usual_rule()});
  bad_number.device_sequence = kLargestWhole + 1;
  EXPECT_THROW(static_cast<void>(event_json(bad_number)), InternalError);
}

}  // namespace
}  // namespace fettle
