#include "app/set_gauge.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "app/judge_job.h"
#include "app/open_folder.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

TypedQuantity typed(const std::string& text) { return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value(); }
Length length(const std::string& text) { return *exact_length(typed(text).quantity); }

Job demo() { return open_folder(FETTLE_SOURCE_DIR "/examples/curlew-3").value(); }

SetGaugeAsked asked(const std::string& what_for = "cylinder-bore", std::optional<std::string> size = {}) {
  return {"bore-gauge", what_for, std::move(size), {}};
}

SettingUp set_for(const Job& job, const SetGaugeAsked& asked) {
  const auto found = set_gauge(job, asked);
  EXPECT_TRUE(found.ok()) << found.problems().front().code;
  return found.value();
}

std::string refusal(const Job& job, const SetGaugeAsked& asked) {
  const auto found = set_gauge(job, asked);
  return found.ok() ? "" : found.problems().front().code;
}

template <class T>
T& find(std::vector<Kept<T>>& list, const std::string& id) {
  return std::find_if(list.begin(), list.end(), [&](const auto& each) { return each.value.id == id; })->value;
}

const LimitPointer& pointer(const SettingUp& found, const std::string& limit) {
  return *std::find_if(found.pointers.begin(), found.pointers.end(), [&](const auto& each) { return each.limit == limit; });
}

TEST(SettingUp, TheDemoAsItWasSettled) {
  // settled.md: inch micrometer, 3.0000 on its standard, set at 3.307 in: 83.9978 mm, 2.2 µm under 84.000, 11 % of 0.020.
  const SettingUp found = set_for(demo(), asked());
  EXPECT_EQ(found.wanted, length("84 mm"));
  EXPECT_EQ(found.master, "mic-3-4");
  EXPECT_EQ(found.thimble->nearest.digits, "3.3070");
  EXPECT_EQ(found.really_set, length("83.9978 mm"));
  EXPECT_EQ((absolute((found.really_set - found.wanted).ratio()) * Ratio(100) / *found.tolerance).decimal(0), "11");
  ASSERT_TRUE(found.assembled.has_value());
  EXPECT_EQ(found.assembled->best.rod.text, "80 mm");
  EXPECT_EQ(found.assembled->best.washers.size(), 3U);
  EXPECT_EQ(found.assembled->best.pressed_in, length("0.5 mm"));
}

TEST(SettingUp, PointersAreCountedFromWhatIsReallySet) {
  const SettingUp found = set_for(demo(), asked());
  // 84.100 - 83.9978 = 102.2 divisions larger.
  const LimitPointer& service = pointer(found, "bore-service");
  EXPECT_EQ(service.at_limit.divisions, Ratio::of(1022, 10));
  EXPECT_EQ(service.at_limit.side, NeedleSide::anticlockwise);
  // With its guard on the good side, by less than a division more than the guard.
  ASSERT_TRUE(service.guarded.has_value());
  EXPECT_TRUE(service.guarded->divisions.is_whole());
  const double inward = (service.at_limit.divisions - service.guarded->divisions).to_double();
  EXPECT_GE(inward, found.doubt->guard_mm * 1000.0);
  EXPECT_LT(inward, found.doubt->guard_mm * 1000.0 + 1.0);
  // "At least" goes the other way: the smallest new bore, 2.2 divisions larger than the master.
  const LimitPointer& low = pointer(found, "bore-new-low");
  EXPECT_EQ(low.at_limit.divisions, Ratio::of(22, 10));
  const double outward = (low.guarded->divisions - low.at_limit.divisions).to_double();
  EXPECT_GE(outward, found.doubt->guard_mm * 1000.0);
  EXPECT_LT(outward, found.doubt->guard_mm * 1000.0 + 1.0);
  // Taper and out-of-round are no places of the needle.
  EXPECT_EQ(found.pointers.size(), 3U);
}

/// A freshly machined bore, read once at its top under the very setting: the doubt is the one that its verdict has.
TEST(SettingUp, TheGuardIsThatOfThePlainVerdict) {
  Job job = demo();
  for (auto& kept : job.parts) kept.value.condition = Condition::machined;
  Setting& setting = find(job.settings, "first");
  setting.closing_zero = std::nullopt;
  setting.master_temperature = std::nullopt;
  setting.part_temperature = std::nullopt;
  std::erase_if(job.readings, [](const auto& each) { return each.value.part != "bore-3" || each.value.station != "top" || each.value.direction != "thrust"; });
  ASSERT_EQ(job.readings.size(), 1U);
  const auto judged = judge_job(job, {std::nullopt, usual_accuracy()});
  ASSERT_TRUE(judged.ok());
  const auto& verdicts = judged.value().judgement.verdicts;
  const auto verdict = std::find_if(verdicts.begin(), verdicts.end(),
                                    [](const auto& each) { return each.part == "bore-3" && each.limit == "bore-service"; });
  ASSERT_TRUE(verdict != verdicts.end() && verdict->doubt.has_value());
  const SettingUp found = set_for(job, asked("bore-3"));
  // The bore read is 0.1 mm larger than the master, so what temperature does to it is 0.1 % more.
  EXPECT_NEAR(found.doubt->standard_uncertainty_mm, verdict->doubt->standard_uncertainty, 2e-6);
  EXPECT_NEAR(found.doubt->guard_mm, verdict->doubt->guard_in_u * verdict->doubt->standard_uncertainty, 4e-6);
  // 5 µm ±, 3 µm ±, 0.5 µm ±, 5 µm ± of the gauge and the micrometer's own, all rectangular, and 2 °C: near 6 µm.
  EXPECT_NEAR(found.doubt->standard_uncertainty_mm, 0.006, 0.0005);
}

TEST(SettingUp, ARuleWithoutDoubtHasNoGuard) {
  Job job = demo();
  job.rule.kind = RuleKind::reading;
  const SettingUp found = set_for(job, asked());
  EXPECT_FALSE(pointer(found, "bore-service").guarded.has_value());
  EXPECT_EQ(pointer(found, "bore-service").at_limit.divisions, Ratio::of(1022, 10));
}

TEST(SettingUp, AStepMovesSizeAndPointers) {
  Job job = demo();
  Part& part = find(job.parts, "bore-2");
  part.step = {StepKind::offset, typed("+0.50 mm"), ""};
  const SettingUp found = set_for(job, asked("bore-2"));
  EXPECT_EQ(found.wanted, length("84.5 mm"));
  EXPECT_EQ(pointer(found, "bore-service").bound, length("84.6 mm").ratio());
  // 84.5 mm = 3.32677 in: 3.327 in = 84.5058 mm, so 94.2 divisions.
  EXPECT_EQ(pointer(found, "bore-service").at_limit.divisions, Ratio::of(942, 10));
  part.step = {StepKind::unknown, {}, ""};
  EXPECT_EQ(refusal(job, asked("bore-2")), "app.set_step_unknown");
  EXPECT_TRUE(set_for(job, asked("bore-2", "84.5 mm")).pointers.empty());
}

/// K-27: 1 mm a turn, travel 1.2 mm, zero with the contact 1.1 mm pressed in: a hole 1.03 mm larger lets the needle run one turn and 3
/// divisions anticlockwise.
TEST(SettingUp, TheTurnIsCounted) {
  Job job = demo();
  Gauge& gauge = find(job.gauges, "bore-gauge");
  gauge.preset = "dial-bore-gauge-0-01-mm";
  gauge.division = std::nullopt;
  gauge.turn = std::nullopt;
  gauge.kit->rods = {typed("85.1 mm")};
  gauge.kit->washers.clear();
  gauge.kit->extensions.clear();
  gauge.kit->least_pressed = typed("0.05 mm");
  Gauge ring{"ring", "setting-ring", {}, {}, {}, {}, {}, typed("84.000 mm"), {}};
  job.gauges.push_back({"ring", ring});
  find(job.limits, "bore-service").bound = typed("85.030 mm");
  SetGaugeAsked on_ring = asked();
  on_ring.master = "ring";
  const SettingUp found = set_for(job, on_ring);
  EXPECT_EQ(found.assembled->best.pressed_in, length("1.1 mm"));
  EXPECT_FALSE(found.assembled->best.in_the_span);
  const LimitPointer& service = pointer(found, "bore-service");
  EXPECT_EQ(service.at_limit.turns, 1);
  EXPECT_EQ(service.at_limit.divisions, Ratio(3));
  EXPECT_EQ(service.at_limit.side, NeedleSide::anticlockwise);
  EXPECT_TRUE(service.in_travel);
  // 0.05 mm must stay pressed in: 1.05 mm larger is the end of it.
  find(job.limits, "bore-service").bound = typed("85.051 mm");
  EXPECT_FALSE(pointer(set_for(job, on_ring), "bore-service").in_travel);
  // A ring has no thimble and cannot be opened.
  EXPECT_FALSE(found.thimble.has_value());
  EXPECT_FALSE(found.proof.has_value());
  EXPECT_EQ(found.pressed_in, NeedleSide::clockwise);
}

TEST(SettingUp, ARingFarFromTheWantedSizeIsRefused) {
  Job job = demo();
  Gauge ring{"ring", "setting-ring", {}, {}, {}, {}, {}, typed("84.450 mm"), {}};
  job.gauges.push_back({"ring", ring});
  SetGaugeAsked on_ring = asked();
  on_ring.master = "ring";
  EXPECT_EQ(refusal(job, on_ring), "verdict.master_out_of_travel");  // 84.5 less 84.45 leaves 0.05 mm pressed in
  find(job.gauges, "ring").marked = typed("84.400 mm");
  EXPECT_EQ(refusal(job, on_ring), "");
}

TEST(SettingUp, WhereTheNeedleSenseIsNotKnown) {
  Job job = demo();
  find(job.gauges, "bore-gauge").pressed_in = std::nullopt;
  const SettingUp found = set_for(job, asked());
  EXPECT_TRUE(found.assembled.has_value());
  EXPECT_FALSE(found.proof.has_value());
  EXPECT_TRUE(found.pointers.empty());
}

TEST(SettingUp, WithoutAKitTheRestIsStillTold) {
  Job job = demo();
  find(job.gauges, "bore-gauge").kit = std::nullopt;
  const SettingUp found = set_for(job, asked());
  EXPECT_FALSE(found.assembled.has_value());
  EXPECT_TRUE(found.proof.has_value());
  EXPECT_EQ(found.pointers.size(), 3U);
}

TEST(SettingUp, WhatCannotBeIsRefused) {
  const Job job = demo();
  EXPECT_EQ(refusal(job, {"bore-gouge", "cylinder-bore", {}, {}}), "app.set_unknown_gauge");
  EXPECT_EQ(refusal(job, {"mic-3-4", "cylinder-bore", {}, {}}), "app.set_not_a_comparison");
  EXPECT_EQ(refusal(job, asked("bore-9")), "app.set_for_unknown");
  EXPECT_EQ(refusal(job, asked("crankpin", "84 mm")), "gauging.wrong_feature");
  EXPECT_EQ(refusal(job, asked("cylinder-bore", "0 mm")), "app.set_size_positive");
  EXPECT_EQ(refusal(job, asked("cylinder-bore", "104 mm")), "app.set_no_master");
  EXPECT_EQ(refusal(job, {"bore-gauge", "cylinder-bore", "104 mm", "mic-3-4"}), "app.set_master_unfit");
  Job other = job;
  find(other.gauges, "bore-gauge").kit->washers.clear();
  EXPECT_EQ(refusal(other, asked("cylinder-bore", "83.3 mm")), "gauging.kit_gap");
  find(other.gauges, "bore-gauge").division = typed("0 mm");
  EXPECT_EQ(refusal(other, asked()), "gauging.division_not_positive");
  other = job;
  std::erase_if(other.limits, [](const auto& each) { return each.value.role == LimitRole::fresh; });
  EXPECT_EQ(refusal(other, asked()), "app.set_no_size");
  other = job;
  other.gauges.push_back({"second", {"mic-mm", "outside-micrometer-75-100-mm", {}, {}, {}, {}, {}, {}, {}}});
  EXPECT_EQ(refusal(other, asked()), "app.set_which_master");
}

}  // namespace
}  // namespace fettle
