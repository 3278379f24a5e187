#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "catalogue/catalogue.h"
#include "gauging/sizes.h"

namespace fettle {
namespace {

TypedQuantity dial(const std::string& text) {
  return read_quantity(text, {UnitId::division, {}, DecimalMark::point, {}, true, {}}, {}).value();
}

struct Round {
  std::vector<ZeroCheck> checks;
  std::optional<TypedQuantity> closing;
  bool ordered = true;
  std::optional<std::string> afresh_of;
};

/// Four readings of 50 divisions anticlockwise, on a ring of 84 mm.
Gauged read_round(const Round& round) {
  const Kind* kind = catalogue().kind("cylinder-bore");
  const std::vector<PartOnBench> parts = {{{"bore-1", kind->id, "", {}, {StepKind::standard, {}, ""}, Condition::worn},
                                           kind->feature, kind->layout, Ratio::of(108, 10'000'000)}};
  Gauge bore{"bg", "dial-bore-gauge-0-001-mm", {}, {}, NeedleSide::clockwise, {}, {}, {}, {}};
  Gauge ring{"ring", "setting-ring", {}, {}, {}, {}, {}, read_quantity("84 mm", {}, {}).value(), {}};
  Setting first{"first", "bg", "ring", {}, {}, {}, {}, {}, {}, {}};
  Setting setting{"c", "bg", "ring", {}, {}, {}, round.closing, {}, {}, {}};
  if (!round.checks.empty()) setting.checks = round.checks;
  setting.afresh_of = round.afresh_of;
  std::vector<Kept<Reading>> readings;
  for (const char* station : {"top", "mid", "bottom", "foot"}) {
    const auto order = static_cast<std::int64_t>(readings.size()) + 1;
    Reading reading{"bore-1", station, "thrust", dial("50 acw"), "c", "", {}, {}, {}, ReadingFlag::none, "", {}};
    if (round.ordered) reading.order = order;
    readings.push_back({"r" + std::to_string(order), reading});
  }
  return sizes_from({parts, {{"g1", bore}, {"g2", ring}}, {{"s1", first}, {"s2", setting}}, readings, {}, catalogue().gauge_presets,
                     catalogue().temperature, Ratio::of(115, 10'000'000)});
}

/// What the estimates lie below what was measured by, µm.
std::vector<double> taken_off(const Gauged& gauged) {
  std::vector<double> out;
  for (const Size& size : gauged.set.sizes) out.push_back(1000.0 * (84.05 - size.estimate));
  return out;
}

/// Closing-zero terms of one size, by source id, µm.
std::map<std::string, double> doubts(const Gauged& gauged, std::size_t size) {
  std::map<std::string, double> out;
  for (const ErrorTerm& term : gauged.set.sizes.at(size).terms) {
    const ErrorSource& source = gauged.set.sources.at(term.source);
    if (source.component == "closing-zero") out[source.id] = 1000.0 * term.coefficient * source.standard_uncertainty;
  }
  return out;
}

bool told(const Gauged& gauged, const std::string& key) {
  return std::any_of(gauged.notices.begin(), gauged.notices.end(), [&](const Message& each) { return each.key == key; });
}

void expect_near(const std::vector<double>& found, const std::vector<double>& wanted) {
  ASSERT_EQ(found.size(), wanted.size());
  for (std::size_t i = 0; i < found.size(); ++i) EXPECT_NEAR(found[i], wanted[i], 1e-8) << i;
}

TEST(ZeroCheck, EachPieceHasItsOwnDrift) {
  // 2 µm larger after the second reading, 1 µm at the end: 2·1/2, 2·2/2, then 2 − 1·1/2, 2 − 1.
  const Gauged gauged = read_round({{{"", 2, dial("2 acw")}}, dial("1 acw"), true, {}});
  ASSERT_TRUE(gauged.problems.empty());
  expect_near(taken_off(gauged), {1.0, 2.0, 1.5, 1.0});
  // Variance d²·(k/m − k²/m²): half of d in the middle of a piece of two, nothing at its end; no piece knows of the other.
  EXPECT_EQ(doubts(gauged, 0), (std::map<std::string, double>{{"setting:c:closing-zero:1", 1.0}}));
  EXPECT_TRUE(doubts(gauged, 1).empty());
  EXPECT_EQ(doubts(gauged, 2), (std::map<std::string, double>{{"setting:c:closing-zero:after-2:1", 0.5}}));
  EXPECT_TRUE(doubts(gauged, 3).empty());
  EXPECT_TRUE(told(gauged, "notice.zero_check"));
  EXPECT_FALSE(told(gauged, "notice.no_closing_zero"));
}

TEST(ZeroCheck, AfterTheLastReadingItIsTheClosingZero) {
  const Gauged checked = read_round({{{"", 4, dial("2 acw")}}, {}, true, {}});
  const Gauged closed = read_round({{}, dial("2 acw"), true, {}});
  expect_near(taken_off(checked), taken_off(closed));
  for (std::size_t i = 0; i < 4; ++i) EXPECT_EQ(doubts(checked, i), doubts(closed, i));
  EXPECT_FALSE(told(checked, "notice.no_closing_zero"));
}

TEST(ZeroCheck, WhatWasReadAfterItIsShiftedAndNobodyLookedAgain) {
  const Gauged gauged = read_round({{{"", 2, dial("2 cw")}}, {}, true, {}});
  expect_near(taken_off(gauged), {-1.0, -2.0, -2.0, -2.0});
  EXPECT_TRUE(doubts(gauged, 3).empty());
  EXPECT_TRUE(told(gauged, "notice.no_closing_zero"));
}

TEST(ZeroCheck, AKnockBeforeTheFirstReading) {
  // The check before the first reading has no piece: all readings are shifted by it; the end is 1 µm farther.
  expect_near(taken_off(read_round({{{"", 0, dial("2 acw")}}, dial("3 acw"), true, {}})), {2.25, 2.5, 2.75, 3.0});
}

TEST(ZeroCheck, TheOrderTheyWereTypedInDoesNotMatter) {
  const ZeroCheck early{"", 1, dial("1 acw")};
  const ZeroCheck late{"", 3, dial("2 acw")};
  const Gauged gauged = read_round({{early, late}, dial("2 acw"), true, {}});
  expect_near(taken_off(gauged), {1.0, 1.5, 2.0, 2.0});
  expect_near(taken_off(read_round({{late, early}, dial("2 acw"), true, {}})), taken_off(gauged));
}

TEST(ZeroCheck, MoreThanTwoDivisionsFromTheLookBefore) {
  EXPECT_TRUE(told(read_round({{{"", 2, dial("3 acw")}}, dial("3 acw"), true, {}}), "notice.zero_check_far"));
  // The end agrees with the check: nothing moved after it.
  EXPECT_FALSE(told(read_round({{{"", 2, dial("3 acw")}}, dial("3 acw"), true, {}}), "notice.closing_zero_far"));
  EXPECT_TRUE(told(read_round({{{"", 2, dial("2 acw")}}, dial("1 cw"), true, {}}), "notice.closing_zero_far"));
}

TEST(ZeroCheck, WithoutOrderTheFarthestCounts) {
  const Gauged gauged = read_round({{{"", 2, dial("2 acw")}}, dial("1 acw"), false, {}});
  expect_near(taken_off(gauged), {0.0, 0.0, 0.0, 0.0});
  EXPECT_NEAR(doubts(gauged, 0).begin()->second, 1.41421356, 1e-8);
  EXPECT_TRUE(told(gauged, "notice.order_unknown"));
}

TEST(ZeroCheck, ACheckBeforeNothingIsRefused) {
  const Gauged gauged = read_round({{{"", -1, dial("1 acw")}}, {}, true, {}});
  ASSERT_FALSE(gauged.problems.empty());
  EXPECT_EQ(gauged.problems.front().code, "gauging.check_order");
}

TEST(ZeroCheck, SetAfreshIsSaidAndNamesAnotherSettingOfTheGauge) {
  EXPECT_TRUE(told(read_round({{}, {}, true, "first"}), "notice.set_afresh"));
  for (const char* wrong : {"c", "ring", "nobody"}) {
    const Gauged gauged = read_round({{}, {}, true, wrong});
    ASSERT_FALSE(gauged.problems.empty()) << wrong;
    EXPECT_EQ(gauged.problems.front().code, "gauging.afresh_unknown");
  }
}

}  // namespace
}  // namespace fettle
