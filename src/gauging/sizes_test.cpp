// Above 400 lines: one workshop stands behind every test of sizes_from, what it gives and what it refuses.

#include "gauging/sizes.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>

#include "catalogue/catalogue.h"

namespace fettle {
namespace {

TypedQuantity typed(const std::string& text, bool on_a_dial = false) {
  const auto read = read_quantity(text, {{}, {}, DecimalMark::point, {}, on_a_dial, {}}, {});
  FETTLE_ASSERT(read.ok(), text);
  return read.value();
}

TypedQuantity dial(const std::string& text) { return typed(text, true); }

Gauge gauge(const std::string& id, const std::string& preset) { return {id, preset, {}, {}, {}, {}, {}, {}, {}}; }

Setting direct(const std::string& id, const std::string& gauge) { return {id, gauge, {}, {}, {}, {}, {}, {}, {}, {}}; }

/// A bore gauge set on the micrometer at 84.00 mm.
Setting compared(const std::string& id) {
  Setting setting = direct(id, "bg");
  setting.master = "mic";
  setting.set = typed("84.00 mm");
  return setting;
}

Reading reading(const TypedQuantity& shown, const std::string& setting) {
  return {"bore-1", "top", "thrust", shown, setting, "", {}, {}, {}, ReadingFlag::none, "", {}};
}

/// Everything sizes_from wants, and a workshop that is in order to begin with: bores 1 and 2 and a shaft of grey iron, a micrometer
/// 75 to 100 mm, a bore gauge of .001 mm whose needle runs clockwise when the contact is pressed in, and a ring
/// of 84.000 mm.
struct Workshop {
  std::vector<PartOnBench> parts;
  std::vector<Kept<Gauge>> gauges;
  std::vector<Kept<Setting>> settings;
  std::vector<Kept<FoundOut>> found_out;
  std::vector<Kept<Reading>> readings;

  Workshop() {
    const Kind* kind = catalogue().kind("cylinder-bore");
    for (const char* id : {"bore-1", "bore-2"}) {
      parts.push_back({{id, kind->id, "", {}, {StepKind::standard, {}, ""}, Condition::worn},
                       kind->feature,
                       kind->layout,
                       Ratio::of(108, 10'000'000)});
    }
    parts.push_back(parts.front());
    parts.back().part.id = "shaft";
    parts.back().feature = Feature::outside;
    add(gauge("mic", "outside-micrometer-75-100-mm"));
    Gauge bore_gauge = gauge("bg", "dial-bore-gauge-0-001-mm");
    bore_gauge.pressed_in = NeedleSide::clockwise;
    add(bore_gauge);
    Gauge ring = gauge("ring", "setting-ring");
    ring.marked = typed("84.000 mm");
    add(ring);
  }

  void add(Gauge gauge) { gauges.push_back({"g" + std::to_string(gauges.size()), std::move(gauge)}); }
  void add(Setting setting) { settings.push_back({"s" + std::to_string(settings.size()), std::move(setting)}); }
  /// What the micrometer reads itself, it reads on the shaft.
  Reading& add(Reading reading) {
    for (const auto& kept : settings) {
      if (kept.value.id == reading.setting && kept.value.gauge == "mic") reading.part = "shaft";
    }
    const std::string number = std::to_string(100 + readings.size());
    readings.push_back({"r" + number, std::move(reading)});
    return readings.back().value;
  }

  [[nodiscard]] Gauged run() const {
    return sizes_from({parts, gauges, settings, readings, found_out, catalogue().gauge_presets, catalogue().temperature,
                       Ratio::of(115, 10'000'000)});
  }
};

Gauged sound(const Workshop& shop) {
  Gauged gauged = shop.run();
  EXPECT_TRUE(gauged.problems.empty()) << gauged.problems.front().code;
  return gauged;
}

std::string measured_mm(const Size& size) { return in_unit(size.as_measured, UnitId::millimetre, 7); }

std::set<std::string> source_ids(const Gauged& gauged, const Size& size) {
  std::set<std::string> out;
  for (const ErrorTerm& term : size.terms) out.insert(gauged.set.sources.at(term.source).id);
  return out;
}

const ErrorSource* find_source(const Gauged& gauged, const std::string& id) {
  for (const ErrorSource& source : gauged.set.sources) {
    if (source.id == id) return &source;
  }
  return nullptr;
}

std::set<std::string> shared(const Gauged& gauged, const Size& a, const Size& b) {
  const auto left = source_ids(gauged, a);
  const auto right = source_ids(gauged, b);
  std::set<std::string> out;
  std::set_intersection(left.begin(), left.end(), right.begin(), right.end(), std::inserter(out, out.end()));
  return out;
}

bool told(const Gauged& gauged, const std::string& key) {
  return std::any_of(gauged.notices.begin(), gauged.notices.end(),
                     [&](const Message& each) { return each.key == key; });
}

TEST(Sizes, ADirectGaugeShowsTheSize) {
  Workshop shop;
  shop.add(direct("d", "mic"));
  shop.add(reading(typed("83.98 mm"), "d"));
  EXPECT_EQ(measured_mm(sound(shop).set.sizes.at(0)), "83.9800000");
}

TEST(Sizes, AComparisonGaugeShowsTheDeviationFromItsMaster) {
  Workshop shop;
  shop.add(compared("c"));
  shop.add(reading(dial("57 acw"), "c"));
  shop.add(reading(dial("3 cw"), "c")).station = "mid";
  const Gauged gauged = sound(shop);
  // Pressed in = clockwise: a larger bore lets the needle run anticlockwise.
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(0)), "84.0570000");
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(1)), "83.9970000");
}

TEST(Sizes, ANeedleThatRunsTheOtherWayTurnsTheSign) {
  Workshop shop;
  shop.gauges.at(1).value.pressed_in = NeedleSide::anticlockwise;
  shop.add(compared("c"));
  shop.add(reading(dial("57 acw"), "c"));
  EXPECT_EQ(measured_mm(sound(shop).set.sizes.at(0)), "83.9430000");
}

TEST(Sizes, AnOpeningZeroBesideTheMarkIsTakenOff) {
  Workshop shop;
  Setting setting = compared("c");
  setting.opening_zero = dial("2 acw");
  shop.add(setting);
  shop.add(reading(dial("57 acw"), "c"));
  EXPECT_EQ(measured_mm(sound(shop).set.sizes.at(0)), "84.0550000");
}

TEST(Sizes, WhatAGaugeReadsTooMuchIsTakenOff) {
  Workshop shop;
  shop.gauges.at(0).value.reads = typed("75.01 mm");
  shop.gauges.at(0).value.on_standard = typed("75.00 mm");
  shop.add(direct("d", "mic"));
  shop.add(compared("c"));
  shop.add(reading(typed("83.98 mm"), "d"));
  shop.add(reading(dial("57 acw"), "c")).station = "mid";
  const Gauged gauged = sound(shop);
  // Reads .01 too much: 83.98 is 83.97, and set at 84.00 it lends 83.99.
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(0)), "84.0470000");
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(1)), "83.9700000");
}

TEST(Sizes, ARingLendsItsMarkedSize) {
  Workshop shop;
  Setting setting = direct("c", "bg");
  setting.master = "ring";
  shop.add(setting);
  shop.add(reading(dial("57 acw"), "c"));
  const Gauged gauged = sound(shop);
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(0)), "84.0570000");
  // Between the flat faces of a micrometer only.
  EXPECT_EQ(source_ids(gauged, gauged.set.sizes.at(0)).count("setting:c:finding-zero"), 0U);
}

TEST(Sizes, InchAndMillimetreDoNotDisturbEachOther) {
  Workshop shop;
  shop.add(gauge("mic-in", "outside-micrometer-3-4-in"));
  Setting setting = compared("c");
  setting.master = "mic-in";
  setting.set = typed("3.307 in");
  shop.add(setting);
  shop.add(reading(dial("57 acw"), "c"));
  // 3.307 × 25.4 = 83.9978
  EXPECT_EQ(measured_mm(sound(shop).set.sizes.at(0)), "84.0548000");
}

TEST(Sizes, TheNearestMarkCountsTheZeroError) {
  Workshop shop;
  Gauge inch = gauge("mic-in", "outside-micrometer-3-4-in");
  inch.reads = typed("3.0005 in");
  inch.on_standard = typed("3.0000 in");
  shop.add(inch);
  Setting setting = compared("c");
  setting.master = "mic-in";
  setting.wanted = typed("84.0105 mm");
  setting.set = typed("3.308 in");
  shop.add(setting);
  // 84.0105 mm = 3.3075 in; it reads half a thou too much, so its mark 3.308 is just that.
  const Length wanted = Length::counts(840'105'000);
  const MasterReport report = sound(shop).set.masters.at(0);
  EXPECT_EQ(report.really_set, wanted);
  EXPECT_EQ(report.nearest, wanted);
}

TEST(Sizes, AluminiumOnASteelMasterByHand) {
  Workshop shop;
  shop.parts.at(0).expansion_per_celsius = Ratio::of(215, 10'000'000);
  Setting setting = direct("c", "bg");
  setting.master = "ring";
  setting.master_temperature = typed("25 °C");
  setting.part_temperature = typed("30 °C");
  shop.add(setting);
  shop.add(reading(dial("50 acw"), "c"));
  const Gauged gauged = sound(shop);
  // Ring 84 × 11.5e-6 × 5 = .00483 longer; bore 84.05483 warm; back by 84.05483 × 21.5e-6 × 10 = .01807178845:
  // 84.03675821155, to the whole count.
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(0)), "84.0367582");
}

TEST(Sizes, AReadingsOwnTemperatureComesFirst) {
  Workshop shop;
  Setting setting = direct("d", "mic");
  setting.master_temperature = typed("20 °C");
  setting.part_temperature = typed("20 °C");
  shop.add(setting);
  shop.add(reading(typed("84.00 mm"), "d"));
  Reading& warm = shop.add(reading(typed("84.00 mm"), "d"));
  warm.station = "mid";
  warm.temperature = typed("30 °C");
  const Gauged gauged = sound(shop);
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(0)), "84.0000000");
  // 84 × 10.8e-6 × 10 = .009072
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(1)), "83.9909280");
}

TEST(Sizes, WithoutTemperaturesNothingIsCorrectedAndTheDoubtIsWider) {
  Workshop shop;
  shop.add(direct("d", "mic"));
  shop.add(reading(typed("84.00 mm"), "d"));
  const Gauged gauged = sound(shop);
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(0)), "84.0000000");
  const ErrorSource* source = find_source(gauged, "round::temperature");
  ASSERT_NE(source, nullptr);
  EXPECT_DOUBLE_EQ(source->standard_uncertainty, 2.0);  // °C, settled for a workshop
  EXPECT_EQ(find_source(gauged, "round::thermometer"), nullptr);
}

TEST(Sizes, TwoSizesUnderOneSettingShareMasterAndSetting) {
  Workshop shop;
  shop.add(compared("c"));
  shop.add(reading(dial("57 acw"), "c"));
  shop.add(reading(dial("40 acw"), "c")).part = "bore-2";
  const Gauged gauged = sound(shop);
  EXPECT_EQ(shared(gauged, gauged.set.sizes.at(0), gauged.set.sizes.at(1)),
            (std::set<std::string>{"master:mic:frame-flex", "master:mic:limit-of-error", "setting:c:finding-zero",
                                   "round::temperature"}));
}

TEST(Sizes, SettingAfreshSharesMasterAndWorkshopButNotTheSetting) {
  Workshop shop;
  shop.add(compared("c1"));
  shop.add(compared("c2"));
  shop.add(reading(dial("57 acw"), "c1"));
  shop.add(reading(dial("58 acw"), "c2"));
  const Gauged gauged = sound(shop);
  EXPECT_EQ(shared(gauged, gauged.set.sizes.at(0), gauged.set.sizes.at(1)),
            (std::set<std::string>{"master:mic:frame-flex", "master:mic:limit-of-error", "round::temperature"}));
}

TEST(Sizes, AMicrometerReadAndLentIsOneMicrometer) {
  Workshop shop;
  shop.add(compared("c"));
  shop.add(direct("d", "mic"));
  shop.add(reading(dial("57 acw"), "c"));
  shop.add(reading(typed("83.98 mm"), "d"));
  const Gauged gauged = sound(shop);
  const Size& lent = gauged.set.sizes.at(0);
  const Size& read = gauged.set.sizes.at(1);
  EXPECT_EQ(shared(gauged, lent, read), (std::set<std::string>{"master:mic:limit-of-error", "round::temperature"}));
  // The frame bends only under the bore gauge; feel and half a division belong to a hand that reads.
  EXPECT_EQ(source_ids(gauged, read).count("master:mic:frame-flex"), 0U);
  EXPECT_EQ(source_ids(gauged, read).count("reading:r101:feel"), 1U);
  EXPECT_EQ(source_ids(gauged, lent).count("reading:r100:feel"), 0U);
}

TEST(Sizes, SourcesCarryTheirFigures) {
  Workshop shop;
  shop.add(compared("c"));
  shop.add(reading(dial("57 acw"), "c"));
  const Gauged gauged = sound(shop);
  // Half-widths of the presets over √3: 5 µm and half a division of 1 µm.
  EXPECT_NEAR(find_source(gauged, "master:mic:limit-of-error")->standard_uncertainty, 0.005 / std::sqrt(3.0), 1e-15);
  EXPECT_NEAR(find_source(gauged, "reading:r100:rounding")->standard_uncertainty, 0.0005 / std::sqrt(3.0), 1e-15);
  EXPECT_EQ(find_source(gauged, "master:mic:limit-of-error")->scope, ErrorScope::master);
}

TEST(Sizes, FlaggedReadingsAreLeftOut) {
  for (const ReadingFlag flag : {ReadingFlag::deposit, ReadingFlag::damage, ReadingFlag::mistake}) {
    Workshop shop;
    shop.add(compared("c"));
    shop.add(reading(dial("51 acw"), "c")).flag = flag;
    shop.add(reading(dial("57 acw"), "c"));
    const Gauged gauged = sound(shop);
    ASSERT_EQ(gauged.set.sizes.size(), 1U) << flag_name(flag);
    EXPECT_EQ(gauged.set.sizes.at(0).reading, "r101");
  }
}

/// Three readings; at the end the needle stands `closing` on the master.
Workshop with_closing_zero(const std::string& closing, bool ordered) {
  Workshop shop;
  Setting setting = compared("c");
  setting.closing_zero = dial(closing);
  shop.add(setting);
  const std::vector<std::string> stations{"top", "mid", "bottom"};
  for (std::size_t i = 0; i < stations.size(); ++i) {
    Reading& next = shop.add(reading(dial("50 acw"), "c"));
    next.station = stations[i];
    if (ordered) next.order = static_cast<std::int64_t>(i) + 1;
  }
  return shop;
}

TEST(Sizes, AClosingZeroShiftsTheEstimateAndNotTheMeasuredSize) {
  // 1.5 divisions anticlockwise: the master seems 1.5 µm larger; 1.5·k/3 comes off.
  const Gauged gauged = sound(with_closing_zero("1.5 acw", true));
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(measured_mm(gauged.set.sizes.at(i)), "84.0500000");
    EXPECT_NEAR(gauged.set.sizes.at(i).estimate, 84.05 - 0.0005 * static_cast<double>(i + 1), 1e-11);
  }
  EXPECT_TRUE(told(gauged, "notice.closing_zero"));
  EXPECT_FALSE(told(gauged, "notice.order_unknown"));
}

TEST(Sizes, AMasterThatSeemsSmallerShiftsTheOtherWay) {
  EXPECT_NEAR(sound(with_closing_zero("1.5 cw", true)).set.sizes.at(2).estimate, 84.0515, 1e-11);
}

TEST(Sizes, AClosingZeroCountsFromTheOpeningZero) {
  Workshop shop = with_closing_zero("3 acw", true);
  shop.settings.at(0).value.opening_zero = dial("2 acw");
  // 50 − 2 divisions; at the end 3 − 2 = 1 µm larger.
  const Gauged gauged = sound(shop);
  EXPECT_EQ(measured_mm(gauged.set.sizes.at(2)), "84.0480000");
  EXPECT_NEAR(gauged.set.sizes.at(2).estimate, 84.047, 1e-11);
}

TEST(Sizes, WithoutOrderNoLineIsDrawn) {
  const Gauged gauged = sound(with_closing_zero("2 acw", false));
  EXPECT_NEAR(gauged.set.sizes.at(2).estimate, 84.05, 1e-11);
  EXPECT_TRUE(told(gauged, "notice.order_unknown"));
  // 2 µm / √2
  EXPECT_NEAR(find_source(gauged, "reading:r102:closing-zero")->standard_uncertainty, 0.00141421, 5e-9);
}

TEST(Sizes, AReadingWithoutAnOrderTakesTheLineFromNoOther) {
  Workshop shop = with_closing_zero("2 acw", true);
  shop.add(reading(dial("50 acw"), "c")).station = "foot";
  const Gauged gauged = sound(shop);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(gauged.set.sizes.at(i).estimate, 84.05 - 0.002 / 3.0 * static_cast<double>(i + 1), 1e-11);
  EXPECT_NEAR(gauged.set.sizes.at(3).estimate, 84.05, 1e-11);
  EXPECT_NEAR(find_source(gauged, "reading:r103:closing-zero")->standard_uncertainty, 0.00141421, 5e-9) << "2 µm / √2";
  EXPECT_TRUE(told(gauged, "notice.order_unknown_of"));
  EXPECT_FALSE(told(gauged, "notice.order_unknown"));
}

TEST(Sizes, MoreThanTwoDivisionsAskForTheRoundAgain) {
  EXPECT_FALSE(told(sound(with_closing_zero("2 acw", true)), "notice.closing_zero_far"));
  EXPECT_TRUE(told(sound(with_closing_zero("2.5 acw", true)), "notice.closing_zero_far"));
  EXPECT_TRUE(told(sound(with_closing_zero("2.5 cw", true)), "notice.closing_zero_far"));
}

TEST(Sizes, RoundsComeInTheOrderOfNumbers) {
  Workshop shop = with_closing_zero("1.5 acw", true);
  // Round 10 comes after round 9; each has its own count.
  const char* rounds[] = {"10", "9", "9"};
  const std::int64_t orders[] = {1, 1, 2};
  for (std::size_t i = 0; i < 3; ++i) {
    shop.readings.at(i).value.round = rounds[i];
    shop.readings.at(i).value.order = orders[i];
  }
  const Gauged gauged = sound(shop);
  EXPECT_NEAR(gauged.set.sizes.at(0).estimate, 84.05 - 0.0015, 1e-11);
  EXPECT_NEAR(gauged.set.sizes.at(1).estimate, 84.05 - 0.0005, 1e-11);
}

bool same(const Gauged& a, const Gauged& b) {
  const auto size = [](const Size& x, const Size& y) {
    return x.reading == y.reading && x.part == y.part && x.cell == y.cell && x.as_measured == y.as_measured &&
           x.estimate == y.estimate && x.terms.size() == y.terms.size();
  };
  const auto source = [](const ErrorSource& x, const ErrorSource& y) { return x.id == y.id; };
  return std::equal(a.set.sizes.begin(), a.set.sizes.end(), b.set.sizes.begin(), b.set.sizes.end(), size) &&
         std::equal(a.set.sources.begin(), a.set.sources.end(), b.set.sources.begin(), b.set.sources.end(), source);
}

TEST(Sizes, ReadingsInAnyOrderGiveTheSame) {
  Workshop shop = with_closing_zero("1.5 acw", true);
  const Gauged before = sound(shop);
  std::reverse(shop.readings.begin(), shop.readings.end());
  EXPECT_TRUE(same(before, sound(shop)));
  shop.readings.pop_back();
  EXPECT_FALSE(same(before, sound(shop)));
}

/// The codes that a workshop out of order is told, each once.
std::set<std::string> codes(const Workshop& shop) {
  std::set<std::string> out;
  for (const Problem& problem : shop.run().problems) out.insert(problem.code);
  return out;
}

using Codes = std::set<std::string>;

TEST(SizesRefuse, GaugesThatCannotBe) {
  Workshop preset;
  preset.add(gauge("x", "no-such-preset"));
  EXPECT_EQ(codes(preset), Codes{"gauging.unknown_preset"});
  Workshop half;
  half.gauges.at(0).value.reads = typed("75.01 mm");
  EXPECT_EQ(codes(half), Codes{"gauging.zero_half_recorded"});
  half.gauges.at(0).value.reads.reset();
  half.gauges.at(0).value.on_standard = typed("75.00 mm");
  EXPECT_EQ(codes(half), Codes{"gauging.zero_half_recorded"});
}

Codes codes_of_setting(const Setting& setting) {
  Workshop shop;
  shop.add(setting);
  return codes(shop);
}

TEST(SizesRefuse, SettingsThatCannotBe) {
  EXPECT_EQ(codes_of_setting(compared("c")), Codes{});
  EXPECT_EQ(codes_of_setting(direct("d", "nobody")), Codes{"gauging.unknown_gauge"});
  EXPECT_EQ(codes_of_setting(direct("c", "bg")), Codes{"gauging.master_missing"});
  Setting setting = compared("c");
  setting.master = "nobody";
  EXPECT_EQ(codes_of_setting(setting), Codes{"gauging.master_unknown"});
  setting.master = "bg";
  EXPECT_EQ(codes_of_setting(setting), Codes{"gauging.not_a_master"});
  setting = compared("c");
  setting.set.reset();
  EXPECT_EQ(codes_of_setting(setting), Codes{"gauging.set_missing"});
  for (const char* outside : {"74.99 mm", "100.01 mm"}) {
    setting.set = typed(outside);
    EXPECT_EQ(codes_of_setting(setting), Codes{"gauging.set_outside_range"}) << outside;
  }
}

TEST(SizesRefuse, ANeedleOfUnknownSense) {
  Workshop shop;
  shop.gauges.at(1).value.pressed_in.reset();
  shop.add(compared("c"));
  EXPECT_EQ(codes(shop), Codes{"gauging.sense_missing"});
}

TEST(SizesRefuse, ADialOfUnknownDivision) {
  Workshop shop;
  std::vector<GaugePreset> presets = catalogue().gauge_presets;
  for (GaugePreset& preset : presets) {
    if (preset.id == "dial-bore-gauge-0-001-mm") preset.division.reset();
  }
  shop.add(compared("c"));
  const Gauged gauged =
      sizes_from({shop.parts, shop.gauges, shop.settings, shop.readings, shop.found_out, presets, catalogue().temperature, Ratio()});
  ASSERT_EQ(gauged.problems.size(), 1U);
  EXPECT_EQ(gauged.problems.front().code, "gauging.division_missing");
}

TEST(SizesRefuse, EverythingWrongIsSaidAtOnce) {
  Workshop shop;
  shop.gauges.at(1).value.pressed_in.reset();
  Setting setting = compared("c");
  setting.master.reset();
  shop.add(setting);
  shop.add(reading(dial("57 acw"), "nowhere")).part = "bore-9";
  Reading& second = shop.add(reading(dial("57 acw"), "nowhere"));
  second.station = "attic";
  second.direction = "sideways";
  EXPECT_EQ(codes(shop), (Codes{"gauging.master_missing", "gauging.sense_missing", "gauging.unknown_part",
                                "gauging.unknown_setting", "gauging.unknown_station", "gauging.unknown_direction"}));
}

Codes codes_of_reading(const TypedQuantity& shown, const std::string& setting) {
  Workshop shop;
  shop.add(gauge("bg-01", "dial-bore-gauge-0-01-mm"));
  shop.gauges.back().value.pressed_in = NeedleSide::clockwise;
  shop.add(gauge("free", "telescoping-gauge-mm"));
  shop.add(compared("c"));
  Setting coarse = compared("coarse");
  coarse.gauge = "bg-01";
  shop.add(coarse);
  shop.add(direct("d", "mic"));
  shop.add(direct("t", "free"));
  shop.add(reading(shown, setting));
  return codes(shop);
}

TEST(SizesRefuse, ReadingsThatNoGaugeShows) {
  EXPECT_EQ(codes_of_reading(dial("57 acw"), "c"), Codes{});
  EXPECT_EQ(codes_of_reading(typed("20 °C"), "c"), Codes{"gauging.not_a_deviation"});
  EXPECT_EQ(codes_of_reading(dial("57 acw"), "d"), Codes{"gauging.not_a_size"});
  EXPECT_EQ(codes_of_reading(typed("20 °C"), "d"), Codes{"gauging.not_a_size"});
  EXPECT_EQ(codes_of_reading(typed("74.99 mm"), "d"), Codes{"gauging.reading_outside_range"});
  EXPECT_EQ(codes_of_reading(typed("100.01 mm"), "d"), Codes{"gauging.reading_outside_range"});
  EXPECT_EQ(codes_of_reading(typed("100.00 mm"), "d"), Codes{});
  // The contact travels 1.2 mm: 120 divisions of .01 mm.
  EXPECT_EQ(codes_of_reading(dial("120 acw"), "coarse"), Codes{});
  EXPECT_EQ(codes_of_reading(dial("121 acw"), "coarse"), Codes{"gauging.beyond_travel"});
  EXPECT_EQ(codes_of_reading(dial("121 cw"), "coarse"), Codes{"gauging.beyond_travel"});
  EXPECT_EQ(codes_of_reading(typed("0 mm"), "t"), Codes{"gauging.no_size"});
}

// A micrometer on a bore, and a bore gauge on a shaft, gave sizes that looked like any other.
TEST(SizesRefuse, AGaugeThatCannotReachTheSurface) {
  Workshop shop;
  shop.add(compared("c"));
  shop.add(direct("d", "mic"));
  shop.add(reading(typed("84.02 mm"), "d")).part = "bore-1";
  shop.add(reading(dial("57 acw"), "c")).part = "shaft";
  EXPECT_EQ(codes(shop), (Codes{"gauging.wrong_feature", "gauging.wrong_feature"}));
}

// One temperature alone was dropped without a word: a hot crankpin came out 37 µm too large.
TEST(SizesRefuse, HalfATemperature) {
  Workshop shop;
  Setting hot = direct("d", "mic");
  hot.part_temperature = typed("60 °C");
  shop.add(hot);
  shop.add(reading(typed("84.02 mm"), "d"));
  EXPECT_EQ(codes(shop), Codes{"gauging.temperature_half"});
  shop.settings.back().value.master_temperature = typed("20 °C");
  EXPECT_EQ(codes(shop), Codes{});
  shop.settings.back().value.part_temperature = typed("900 °C");
  EXPECT_EQ(codes(shop), Codes{"gauging.temperature_impossible"});
}

TEST(SizesRefuse, ARingSetToAnotherSize) {
  Workshop shop;
  Setting setting = compared("c");
  setting.master = "ring";
  setting.set = typed("85.000 mm");
  shop.add(setting);
  EXPECT_EQ(codes(shop), Codes{"gauging.set_and_marked"});
}

TEST(Sizes, ZerosThatNobodyCheckedAreNamed) {
  Workshop shop;
  shop.add(compared("c"));
  shop.add(reading(dial("57 acw"), "c"));
  EXPECT_TRUE(told(shop.run(), "notice.no_closing_zero"));
  EXPECT_TRUE(told(shop.run(), "notice.no_zero_check"));
}

TEST(SizesRefuse, OneOrderTwice) {
  Workshop shop = with_closing_zero("1 acw", true);
  shop.readings.at(2).value.order = 2;
  EXPECT_EQ(codes(shop), Codes{"gauging.order_twice"});
  shop.readings.at(2).value.round = "next";
  EXPECT_EQ(codes(shop), Codes{});
}

TEST(SizesRefuse, ACrowdedPlace) {
  Workshop shop;
  shop.add(compared("c"));
  for (int i = 0; i < 64; ++i) shop.add(reading(dial("57 acw"), "c"));
  EXPECT_EQ(codes(shop), Codes{});
  shop.add(reading(dial("57 acw"), "c")).flag = ReadingFlag::mistake;
  EXPECT_EQ(codes(shop), Codes{});
  shop.add(reading(dial("57 acw"), "c"));
  EXPECT_EQ(codes(shop), Codes{"gauging.too_many_repeats"});
}

}  // namespace
}  // namespace fettle
