#include "gauging/finding_zero.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "catalogue/catalogue.h"
#include "gauging/sizes.h"

namespace fettle {
namespace {

TypedQuantity typed(const std::string& text, bool on_a_dial = false) {
  const auto unit = on_a_dial ? std::optional(UnitId::division) : std::nullopt;
  return read_quantity(text, {unit, {}, DecimalMark::point, {}, on_a_dial, {}}, {}).value();
}

/// A bore read once, 10 divisions anticlockwise, under a setting whose zero was found as given.
Gauged read_with(const std::vector<std::string>& zeros, const std::string& master, std::optional<TypedQuantity> opening = {}) {
  const Kind* kind = catalogue().kind("cylinder-bore");
  const std::vector<PartOnBench> parts = {{{"bore-1", kind->id, "", {}, {StepKind::standard, {}, ""}, Condition::worn},
                                           kind->feature, kind->layout, Ratio::of(108, 10'000'000)}};
  Gauge bore{"bg", "dial-bore-gauge-0-001-mm", {}, {}, NeedleSide::clockwise, {}, {}, {}, {}};
  const std::vector<Kept<Gauge>> gauges = {{"g1", bore},
                                           {"g2", {"mic", "outside-micrometer-75-100-mm", {}, {}, {}, {}, {}, {}, {}}},
                                           {"g3", {"ring", "setting-ring", {}, {}, {}, {}, {}, typed("84.00 mm"), {}}}};
  Setting setting{"s", "bg", master, {}, {}, std::move(opening), {}, {}, {}, {}};
  if (master == "mic") setting.set = typed("84.00 mm");
  if (!zeros.empty()) setting.opening_zeros.emplace();
  for (const std::string& each : zeros) setting.opening_zeros->push_back(typed(each, true));
  const Reading reading{"bore-1", "top", "thrust", typed("10 acw", true), "s", "", {}, {}, {}, ReadingFlag::none, "", {}};
  return sizes_from({parts, gauges, {{"s", setting}}, {{"r", reading}}, {}, catalogue().gauge_presets, catalogue().temperature,
                     Ratio::of(115, 10'000'000)});
}

const ErrorSource* zero_source(const Gauged& gauged) {
  const auto found = std::find_if(gauged.set.sources.begin(), gauged.set.sources.end(),
                                  [](const auto& each) { return each.component == "finding-zero"; });
  return found == gauged.set.sources.end() ? nullptr : &*found;
}

bool told(const Gauged& gauged, const std::string& key) {
  return std::any_of(gauged.notices.begin(), gauged.notices.end(), [&](const Message& each) { return each.key == key; });
}

TEST(FindingZero, TheMeanIsTheZero) {
  // 0, 1 and 1 anticlockwise: the zero is 2/3 anticlockwise, so 10 anticlockwise is 28/3 divisions larger.
  const Gauged gauged = read_with({"0", "1 acw", "1 acw"}, "mic");
  ASSERT_TRUE(gauged.problems.empty());
  EXPECT_EQ(gauged.set.sizes.front().as_measured, Ratio(840'000'000) + Ratio::of(28, 3) * Ratio(10'000));
  EXPECT_FALSE(told(gauged, "notice.zeros_apart"));
}

TEST(FindingZero, ItsDoubtIsPooledWithTheStatedOne) {
  // Stated: 5 µm rectangular, u0² = 25/3 µm². Zeros 0, 1, 2 anticlockwise: SS = 2 µm², nu = 2, r²/12·nu = 1/6: 11/6.
  // One zero: (6·25/3 + 11/6)/8 = (300 + 11)/48 = 6.4792 µm²; mean of three: 2.15972 µm², u = 1.46960 µm.
  const Gauged gauged = read_with({"0", "1 acw", "2 acw"}, "mic");
  const ErrorSource* source = zero_source(gauged);
  ASSERT_NE(source, nullptr);
  EXPECT_NEAR(source->standard_uncertainty * 1000.0, std::sqrt(311.0 / 144.0), 1e-12);
  EXPECT_EQ(source->degrees_of_freedom, 8.0);
  EXPECT_EQ(source->scope, ErrorScope::setting);
  EXPECT_TRUE(told(gauged, "notice.zeros_learned"));
  EXPECT_FALSE(told(gauged, "notice.zeros_apart"));  // two divisions are still fine
  // Once found it stays as stated.
  EXPECT_NEAR(zero_source(read_with({}, "mic"))->standard_uncertainty * 1000.0, 5.0 / std::sqrt(3.0), 1e-12);
}

TEST(FindingZero, ZerosThatScatterWidenIt) {
  const Gauged close = read_with({"0", "0", "0"}, "mic");
  const Gauged apart = read_with({"0", "12 acw", "6 cw"}, "mic");
  EXPECT_LT(zero_source(close)->standard_uncertainty, zero_source(apart)->standard_uncertainty);
  EXPECT_TRUE(told(apart, "notice.zeros_apart"));
  EXPECT_FALSE(told(close, "notice.zeros_apart"));
  // Nothing scatters: rounding may not take the doubt below what was stated with its weight: 6·25/3/8/3.
  EXPECT_NEAR(zero_source(close)->standard_uncertainty * 1000.0, std::sqrt(50.0 / 24.0), 1e-12);
}

TEST(FindingZero, OnARingTheZerosStandAlone) {
  // The preset states nothing for a ring. 0, 3 and 3 anticlockwise: SS = 6, less 1/6 for rounding: 35/6; /2 /3 = 35/36.
  const Gauged gauged = read_with({"0", "3 acw", "3 acw"}, "ring");
  const ErrorSource* source = zero_source(gauged);
  ASSERT_NE(source, nullptr);
  EXPECT_NEAR(source->standard_uncertainty * 1000.0, std::sqrt(35.0 / 36.0), 1e-12);
  EXPECT_EQ(source->degrees_of_freedom, 2.0);
  EXPECT_TRUE(told(gauged, "notice.zeros_alone"));
  // The reading rests on it.
  const auto& terms = gauged.set.sizes.front().terms;
  EXPECT_TRUE(std::any_of(terms.begin(), terms.end(), [&](const auto& each) { return &gauged.set.sources[each.source] == source; }));
  EXPECT_TRUE(std::is_sorted(terms.begin(), terms.end(), [](const auto& a, const auto& b) { return a.source < b.source; }));
}

TEST(FindingZero, ZerosThatAreAlikeAreOneZero) {
  EXPECT_EQ(read_with({"2 acw", "2 acw"}, "mic").set.sizes.front().as_measured,
            read_with({}, "mic", typed("2 acw", true)).set.sizes.front().as_measured);
}

TEST(FindingZero, TooFewAndTooManyAreRefused) {
  for (const std::vector<std::string>& zeros : {std::vector<std::string>{"0"}, {"0", "0", "0", "0", "0", "0"}}) {
    const Gauged gauged = read_with(zeros, "mic");
    ASSERT_FALSE(gauged.problems.empty());
    EXPECT_EQ(gauged.problems.front().code, "gauging.zeros_count");
  }
  EXPECT_EQ(read_with({"0", "1 acw"}, "mic", typed("0", true)).problems.front().code, "gauging.zeros_count");
}

}  // namespace
}  // namespace fettle
