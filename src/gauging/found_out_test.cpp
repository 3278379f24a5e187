#include "gauging/found_out.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <tuple>

#include "catalogue/catalogue.h"
#include "gauging/sizes.h"

namespace fettle {
namespace {

TypedQuantity typed(const char* text) {
  return read_quantity(text, {std::nullopt, std::nullopt, DecimalMark::point, std::nullopt, false, std::nullopt}, Place{"job.toml", 3, 1}).value();
}

FoundOut too_much(const char* how_far) { return {"mic", {}, {}, typed(how_far), {}, "dropped"}; }
FoundOut may_be_off(const char* how_far) { return {"mic", {}, {}, {}, typed(how_far), "dropped"}; }

/// Three shafts read under three settings of one micrometer, and a ring that a bore gauge was set on.
struct Shop {
  std::vector<PartOnBench> parts;
  std::vector<Kept<Gauge>> gauges = {{"g0", {}}, {"g1", {}}};
  std::vector<Kept<Setting>> settings;
  std::vector<Kept<Reading>> readings;
  std::vector<Kept<FoundOut>> found_out;

  Shop() {
    gauges[0].value.id = "mic";
    gauges[0].value.preset = "outside-micrometer-75-100-mm";
    gauges[1].value.id = "bore-gauge";
    gauges[1].value.preset = "dial-bore-gauge-0-001-mm";
    const Kind* kind = catalogue().kind("main-journal");
    for (const char* id : {"1", "2", "3"}) {
      const std::string setting = std::string("s") + id;
      parts.push_back({{id, kind->id, "", {}, {StepKind::standard, {}, ""}, Condition::worn}, kind->feature, kind->layout, Ratio()});
      settings.push_back({"e" + setting, {setting, "mic", {}, {}, {}, {}, {}, {}, {}, {}}});
      readings.push_back({"r" + setting, {id, "front", "vertical", typed("80.000 mm"), setting, "", {}, {}, {}, ReadingFlag::none, "", {}}});
    }
  }

  [[nodiscard]] Gauged run() const {
    return sizes_from({parts, gauges, settings, readings, found_out, catalogue().gauge_presets, catalogue().temperature, Ratio()});
  }
  [[nodiscard]] std::vector<std::string> refused(FoundOut found) {
    found_out.push_back({"f", std::move(found)});
    std::vector<std::string> codes;
    for (const Problem& each : run().problems) codes.push_back(each.code);
    found_out.pop_back();
    return codes;
  }
};

/// mm², between sizes a and b, of what was found out alone.
double covariance(const SizeSet& set, std::size_t a, std::size_t b) {
  std::map<std::size_t, double> of_a;
  for (const ErrorTerm& term : set.sizes[a].terms) of_a[term.source] += term.coefficient;
  double sum = 0.0;
  for (const ErrorTerm& term : set.sizes[b].terms) {
    const ErrorSource& source = set.sources[term.source];
    if (source.component == "out-of-true") sum += of_a[term.source] * term.coefficient * source.standard_uncertainty * source.standard_uncertainty;
  }
  return sum;
}

TEST(FoundOut, AStepThatNobodySawMovesAndDoubtsEachSettingAsItIsLikely) {
  Shop shop;
  shop.found_out = {{"f", too_much("0.008 mm")}};
  const Gauged gauged = shop.run();
  ASSERT_TRUE(gauged.problems.empty());
  // All four moments counted: before s1, s2, s3, after them. The micrometer showed d too much from there on.
  constexpr double kD = 0.008;
  constexpr double kDigit = 0.0005 * 0.0005 / 3.0;  // it was read to .001
  for (std::size_t a = 0; a < 3; ++a) {
    const double pa = static_cast<double>(a + 1) / 4.0;
    EXPECT_NEAR(gauged.set.sizes[a].estimate, 80.0 - kD * pa, 1e-12);
    EXPECT_EQ(gauged.set.sizes[a].as_measured, Ratio(static_cast<Int128>(800'000'000) * 10) / Ratio(10)) << "as read, whatever was found out";
    for (std::size_t b = a; b < 3; ++b) {
      const double pb = static_cast<double>(b + 1) / 4.0;
      double both = 0.0;
      for (std::size_t moment = 0; moment < 4; ++moment) both += (moment <= a && moment <= b) ? 0.25 : 0.0;
      EXPECT_NEAR(covariance(gauged.set, a, b), (kD * kD + kDigit) * both - kD * kD * pa * pb, 1e-15) << a << b;
    }
  }
}

TEST(FoundOut, ABoundAloneMovesNothingAndWidensFromSettingToSetting) {
  Shop shop;
  shop.found_out = {{"f", may_be_off("0.012 mm")}};
  const Gauged gauged = shop.run();
  ASSERT_TRUE(gauged.problems.empty());
  for (std::size_t a = 0; a < 3; ++a) {
    EXPECT_DOUBLE_EQ(gauged.set.sizes[a].estimate, 80.0);
    for (std::size_t b = a; b < 3; ++b) {
      // E[d²]·P(off at a and at b): rectangular in ±.012.
      EXPECT_NEAR(covariance(gauged.set, a, b), 0.012 * 0.012 / 3.0 * static_cast<double>(a + 1) / 4.0, 1e-15) << a << b;
    }
  }
}

TEST(FoundOut, OnlyWhatWasReadBetweenLastGoodAndPutRight) {
  Shop shop;
  FoundOut found = too_much("0.008 mm");
  found.last_good = "s1";
  found.good_again = "s3";
  shop.found_out = {{"f", found}};
  EXPECT_EQ(settings_in_doubt(found, shop.settings), std::vector<std::string>{"s2"});
  const Gauged gauged = shop.run();
  EXPECT_DOUBLE_EQ(gauged.set.sizes[0].estimate, 80.0);
  EXPECT_NEAR(gauged.set.sizes[1].estimate, 80.0 - 0.004, 1e-12);
  EXPECT_DOUBLE_EQ(gauged.set.sizes[2].estimate, 80.0);
  EXPECT_DOUBLE_EQ(covariance(gauged.set, 2, 2), 0.0);
}

TEST(FoundOut, AMasterThatWasOffIsOffInEveryReadingOfWhatWasSetOnIt) {
  Shop shop;
  Setting set{"s4", "bore-gauge", "mic", {}, typed("80.000 mm"), {}, {}, {}, {}, {}};
  const FoundOut found = too_much("0.008 mm");
  shop.settings.push_back({"es4", set});
  EXPECT_EQ(settings_in_doubt(found, shop.settings), (std::vector<std::string>{"s1", "s2", "s3", "s4"}));
}

/// One shaft read at four places under one setting, in the order 3, 1, 2, 4 of the places if the order is known.
Shop one_shaft(bool ordered) {
  Shop shop;
  shop.settings.resize(1);
  shop.readings.clear();
  const std::vector<std::tuple<const char*, const char*, int>> places = {
      {"front", "vertical", 2}, {"front", "horizontal", 3}, {"rear", "vertical", 1}, {"rear", "horizontal", 4}};
  for (const auto& [station, direction, order] : places) {
    const auto k = ordered ? std::optional<std::int64_t>(order) : std::nullopt;
    shop.readings.push_back({std::string("r-") + station + direction,
                             {"1", station, direction, typed("80.000 mm"), "s1", "", k, {}, {}, ReadingFlag::none, "", {}}});
  }
  return shop;
}

std::size_t place_of_reading(const SizeSet& set, const std::string& reading) {
  for (std::size_t i = 0; i < set.sizes.size(); ++i) {
    if (set.sizes[i].reading == reading) return i;
  }
  ADD_FAILURE() << reading;
  return 0;
}

TEST(FoundOut, AMicrometerThatReadAllUnderOneSettingMayHaveGoneOffBetweenAnyTwoReadings) {
  Shop shop = one_shaft(true);
  shop.found_out = {{"f", too_much("0.030 mm")}};
  const Gauged gauged = shop.run();
  ASSERT_TRUE(gauged.problems.empty());
  const std::size_t first = place_of_reading(gauged.set, "r-rearvertical");
  const std::size_t last = place_of_reading(gauged.set, "r-rearhorizontal");
  EXPECT_NEAR(gauged.set.sizes[first].estimate, 80.0 - 0.030 / 5.0, 1e-12);
  EXPECT_NEAR(gauged.set.sizes[last].estimate, 80.0 - 0.030 * 4.0 / 5.0, 1e-12);
  // What taper or out-of-round see: the two differ by d if it went off between them, three of five.
  const double variance = covariance(gauged.set, first, first) + covariance(gauged.set, last, last) - 2.0 * covariance(gauged.set, first, last);
  const double digit = 0.0005 * 0.0005 / 3.0;
  EXPECT_NEAR(variance, 0.6 * (0.030 * 0.030 + digit) - 0.6 * 0.6 * 0.030 * 0.030, 1e-15);
}

TEST(FoundOut, WithoutAnOrderEachReadingHasItsPlaceAtRandom) {
  Shop shop = one_shaft(false);
  shop.found_out = {{"f", too_much("0.030 mm")}};
  const Gauged gauged = shop.run();
  ASSERT_TRUE(gauged.problems.empty());
  const double mean_square = 0.030 * 0.030 + 0.0005 * 0.0005 / 3.0;
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(gauged.set.sizes[i].estimate, 80.0 - 0.030 / 2.0, 1e-12);
    EXPECT_NEAR(covariance(gauged.set, i, i), mean_square / 2.0 - 0.030 * 0.030 / 4.0, 1e-15);
  }
  // Two readings, both orders alike: they differ in more than nothing, and in no more than wholly independent ones would.
  const double both = covariance(gauged.set, 0, 1);
  EXPECT_LT(both, covariance(gauged.set, 0, 0));
  // The mean over all ordered pairs of min(p, p') − p·p' for four of five moments is .2 · .25 ...; reckoned here by trying everything.
  double exact = 0.0;
  for (int a = 1; a <= 4; ++a) {
    for (int b = 1; b <= 4; ++b) {
      if (a != b) exact += (mean_square * std::min(a, b) / 5.0 - 0.25 * 0.030 * 0.030) / 12.0;
    }
  }
  const double own = covariance(gauged.set, 0, 0);
  EXPECT_NEAR(both, exact + (own - exact) / 4.0, 1e-15) << "a quarter of what is a reading's own is taken as shared: the docs say 1/n";
}

TEST(FoundOut, AMicrometerLockedOnAPartLendsNoSize) {
  Shop shop;
  Setting locked{"s4", "bore-gauge", "mic", typed("80.000 mm"), {}, {}, {}, {}, {}, {}};
  locked.locked_on = "1";
  shop.settings.push_back({"es4", locked});
  EXPECT_EQ(settings_in_doubt(too_much("0.008 mm"), shop.settings), (std::vector<std::string>{"s1", "s2", "s3"}));
}

TEST(FoundOut, WhatIsRecordedForTheZeroIsNotTakenOffTwice) {
  Shop shop;
  shop.gauges[0].value.reads = typed("75.003 mm");
  shop.gauges[0].value.on_standard = typed("75.000 mm");
  EXPECT_EQ(shop.refused(too_much("0.003 mm")), std::vector<std::string>{"gauging.found_out_recorded"});
  shop.found_out = {{"f", too_much("0.008 mm")}};
  const Gauged gauged = shop.run();
  ASSERT_TRUE(gauged.problems.empty());
  EXPECT_NEAR(gauged.set.sizes[0].estimate, 80.0 - 0.003 - 0.005 / 4.0, 1e-12);
}

TEST(FoundOut, TwiceWhereASettingBetweenWasGood) {
  Shop shop;
  FoundOut first = too_much("0.008 mm");
  first.good_again = "s2";
  FoundOut second = may_be_off("0.010 mm");
  second.last_good = "s2";
  shop.found_out = {{"f", first}, {"g", second}};
  const Gauged gauged = shop.run();
  ASSERT_TRUE(gauged.problems.empty());
  EXPECT_NEAR(gauged.set.sizes[0].estimate, 80.0 - 0.004, 1e-12);
  EXPECT_DOUBLE_EQ(gauged.set.sizes[1].estimate, 80.0);
  EXPECT_DOUBLE_EQ(covariance(gauged.set, 1, 1), 0.0);
  EXPECT_NEAR(covariance(gauged.set, 2, 2), 0.010 * 0.010 / 6.0, 1e-15);
  EXPECT_DOUBLE_EQ(covariance(gauged.set, 0, 2), 0.0);
}

TEST(FoundOut, WhatCannotBeIsRefused) {
  Shop shop;
  const auto only = [](const char* code) { return std::vector<std::string>{code}; };
  FoundOut found = too_much("0.008 mm");
  found.gauge = "nobody's";
  EXPECT_EQ(shop.refused(found), only("gauging.found_out_unknown"));
  found.gauge = "bore-gauge";
  EXPECT_EQ(shop.refused(found), only("gauging.found_out_is_set"));
  FoundOut scale = may_be_off("0.004 mm");
  scale.gauge = "bore-gauge";
  EXPECT_TRUE(shop.refused(scale).empty()) << "its scale may be in doubt, whatever its zero";
  found = too_much("0.008 mm");
  found.last_good = "s9";
  EXPECT_EQ(shop.refused(found), only("gauging.found_out_setting"));
  found.last_good = "s2";
  found.good_again = "s2";
  EXPECT_EQ(shop.refused(found), only("gauging.found_out_order"));
  EXPECT_EQ(shop.refused(too_much("0 mm")), only("gauging.found_out_how_far"));
  EXPECT_EQ(shop.refused(too_much("5 N")), only("gauging.found_out_how_far"));
  EXPECT_EQ(shop.refused(may_be_off("-0.004 mm")), only("gauging.found_out_how_far"));
  found = too_much("0.008 mm");
  found.may_be_off = typed("0.008 mm");
  EXPECT_EQ(shop.refused(found), only("gauging.found_out_how_far"));
  shop.found_out = {{"f", too_much("0.008 mm")}};
  EXPECT_EQ(shop.refused(too_much("0.004 mm")), only("gauging.found_out_twice"));
  EXPECT_TRUE(shop.run().problems.empty());
}

}  // namespace
}  // namespace fettle
