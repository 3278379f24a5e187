#include "app/judge_job.h"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>

#include "app/open_folder.h"
#include "job/fold.h"

namespace fettle {
namespace {

constexpr std::string_view kHead = R"(
[job]
id = "j"
name = "a job"
decimal_mark = "point"
[[gauge]]
id = "mic"
preset = "outside-micrometer-75-100-mm"
[[gauge]]
id = "bg"
preset = "dial-bore-gauge-0-001-mm"
pressed_in = "clockwise"
[[setting]]
id = "s"
gauge = "bg"
master = "mic"
set = "84.00 mm"
)";

std::string part(const std::string& step, const std::string& condition = "worn") {
  return "[[part]]\nid = \"bore-1\"\nkind = \"cylinder-bore\"\nstep = \"" + step + "\"\ncondition = \"" + condition + "\"\n";
}

std::string limit(const std::string& id, const std::string& definition, const std::string& role, const std::string& side,
                  const std::string& bound, const std::string& more = "") {
  return "[[limit]]\nid = \"" + id + "\"\nkind = \"cylinder-bore\"\ndefinition = \"" + definition + "\"\nrole = \"" + role +
         "\"\nside = \"" + side + "\"\nbound = \"" + bound + "\"\nbook = \"b\"\npage = \"1\"\n" + more;
}

/// Six places, each `top`, `mid`, `bottom` divisions anticlockwise on both axes but the top of the pin axis, which is 2 less.
std::string six(int top, int mid, int bottom) {
  std::string out = "part,station,direction,reading,unit,setting\n";
  const auto row = [&](const char* station, const char* direction, int value) {
    out += std::string("bore-1,") + station + "," + direction + "," + std::to_string(value) + " acw,,s\n";
  };
  row("top", "thrust", top);
  row("top", "pin", top - 2);
  row("mid", "thrust", mid);
  row("mid", "pin", mid - 1);
  row("bottom", "thrust", bottom);
  row("bottom", "pin", bottom - 1);
  return out;
}

JudgedJob judged(const std::string& job, const std::string& readings, std::optional<Rule> rule = {}) {
  const Imported imported = import_folder({"f", std::string(kHead) + job, readings});
  EXPECT_TRUE(imported.problems.empty()) << imported.problems.front().code;
  Result<JudgedJob> result = judge_job(fold(imported.events).job, {std::move(rule), usual_accuracy()});
  EXPECT_TRUE(result.ok()) << result.problems().front().code;
  return std::move(result).value();
}

const std::string kService = limit("size", "size-1", "service", "at-most", "84.100 mm");

StateWord state(const JudgedJob& job) { return job.judgement.states.at(0).word; }

TEST(JudgeJob, TheDemoEngineAsInItsStory) {
  const Result<Job> job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3");
  ASSERT_TRUE(job.ok());
  const Result<JudgedJob> demo = judge_job(job.value(), {{}, usual_accuracy()});
  ASSERT_TRUE(demo.ok());
  // Readings, limits and the three largest sizes are the scenario's own figures: 3.307 in = 83.9978 mm, 0.057 / 0.144 / 0.100 larger.
  std::vector<std::string> sizes;
  for (const Verdict& verdict : demo.value().judgement.verdicts) {
    if (verdict.limit == "bore-service") sizes.push_back(in_unit(*verdict.as_measured, UnitId::millimetre, 4));
  }
  EXPECT_EQ(sizes, (std::vector<std::string>{"84.0548", "84.1418", "84.0978"}));
  std::vector<StateWord> states;
  for (const PartState& each : demo.value().judgement.states) states.push_back(each.word);
  EXPECT_EQ(states, (std::vector<StateWord>{StateWord::serviceable, StateWord::beyond, StateWord::too_close, StateWord::beyond}));
  EXPECT_EQ(demo.value().judgement.joint.word, VerdictWord::beyond);
}

TEST(JudgeJob, SettingAfreshSettlesBoreThree) {
  const Result<Job> job = open_folder(std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3-set-afresh");
  ASSERT_TRUE(job.ok());
  const Result<JudgedJob> demo = judge_job(job.value(), {{}, usual_accuracy()});
  ASSERT_TRUE(demo.ok());
  EXPECT_EQ(demo.value().judgement.states.at(2).word, StateWord::serviceable);
}

TEST(JudgeJob, EqualToTheLimitFollowsTheTieRule) {
  Rule reading{RuleKind::reading, Ratio::of(95, 100), TieRule::equal_is_within};
  const std::string job = part("standard") + kService;
  EXPECT_EQ(state(judged(job, six(100, 40, 20), reading)), StateWord::serviceable);
  reading.tie = TieRule::equal_is_beyond;
  EXPECT_EQ(state(judged(job, six(100, 40, 20), reading)), StateWord::beyond);
  reading.tie = TieRule::equal_is_within;
  EXPECT_EQ(state(judged(job, six(101, 40, 20), reading)), StateWord::beyond);
}

TEST(JudgeJob, TheLevelWidensTheBand) {
  const std::string job = part("standard") + kService;
  const Rule strict{RuleKind::probability, Ratio::of(999, 1000), TieRule::equal_is_within};
  EXPECT_EQ(state(judged(job, six(88, 40, 20))), StateWord::serviceable);
  EXPECT_EQ(state(judged(job, six(88, 40, 20), strict)), StateWord::too_close);
}

TEST(JudgeJob, AsNewNeedsTheManufacturingLimits) {
  const std::string fresh = limit("low", "size-3", "new", "at-least", "84.000 mm") + limit("high", "size-1", "new", "at-most", "84.040 mm");
  EXPECT_EQ(state(judged(part("standard") + kService + fresh, six(20, 19, 18))), StateWord::as_new);
  EXPECT_EQ(state(judged(part("standard") + kService + fresh, six(60, 30, 20))), StateWord::serviceable);
}

TEST(JudgeJob, SizeLimitsMoveWithTheStep) {
  const std::string oversize = limit("size", "size-1", "service", "at-most", "83.900 mm");
  EXPECT_EQ(state(judged(part("standard") + oversize, six(60, 30, 20))), StateWord::beyond);
  const JudgedJob moved = judged(part("+0.25 mm") + oversize, six(60, 30, 20));
  EXPECT_EQ(state(moved), StateWord::serviceable);
  EXPECT_EQ(in_unit(moved.judgement.verdicts.at(0).bound, UnitId::millimetre, 3), "84.150");
}

TEST(JudgeJob, AnUnknownStepLeavesSizesUnjudgedButNotTheirForm) {
  const JudgedJob job = judged(part("unknown") + kService + limit("oor", "oor-1", "service", "at-most", "0.050 mm"), six(60, 30, 20));
  EXPECT_EQ(job.judgement.verdicts.at(0).reasons.at(0).code, "verdict.step_unknown");
  EXPECT_EQ(job.judgement.verdicts.at(1).word, VerdictWord::within);
  EXPECT_EQ(state(job), StateWord::not_judged);
}

TEST(JudgeJob, NotJudgedAlwaysHasItsReason) {
  EXPECT_EQ(judged(part("standard"), six(60, 30, 20)).judgement.states.at(0).reasons.at(0).key, "reason.no_limit");
  const JudgedJob nothing = judged(part("standard") + kService, "part,station,direction,reading,unit,setting\n");
  EXPECT_EQ(state(nothing), StateWord::not_judged);
  EXPECT_EQ(nothing.judgement.verdicts.at(0).reasons.at(0).code, "verdict.not_read");
  const JudgedJob one = judged(part("standard") + limit("oor", "oor-1", "service", "at-most", "0.050 mm"),
                               "part,station,direction,reading,unit,setting\nbore-1,top,thrust,20 acw,,s\n");
  EXPECT_EQ(one.judgement.verdicts.at(0).word, VerdictWord::not_judged);
  EXPECT_FALSE(one.judgement.verdicts.at(0).reasons.empty());
}

TEST(JudgeJob, TheEyeOutranksTheGauge) {
  const std::string condemned = "[[finding]]\npart = \"bore-1\"\nwhat = \"crack\"\nweight = \"condemns\"\n";
  const std::string to_test = "[[finding]]\npart = \"bore-1\"\nwhat = \"line, perhaps a crack\"\nweight = \"needs-test\"\n";
  EXPECT_EQ(state(judged(part("standard") + kService + condemned, six(20, 19, 18))), StateWord::beyond);
  EXPECT_EQ(state(judged(part("standard") + kService + to_test, six(20, 19, 18))), StateWord::not_judged);
  EXPECT_EQ(state(judged(part("standard") + kService + to_test, six(150, 60, 20))), StateWord::beyond);
}

TEST(JudgeJob, PlainFigureAgreesWithTheNormalOfOneForm) {
  // One place, one form: the flat-prior figure is the normal probability of the margin; 4 standard errors of the draws.
  const JudgedJob job = judged(part("standard") + kService, "part,station,direction,reading,unit,setting\nbore-1,top,thrust,98 acw,,s\n");
  const Verdict& verdict = job.judgement.verdicts.at(0);
  ASSERT_TRUE(verdict.doubt && verdict.plain);
  EXPECT_NEAR(verdict.doubt->margin_in_u, 0.002 / verdict.doubt->standard_uncertainty, 1e-9);
  const double expected = 0.5 * std::erfc(-verdict.doubt->margin_in_u / std::sqrt(2.0));
  EXPECT_NEAR(verdict.plain->value, expected, 4 * verdict.plain->standard_error);
}

TEST(JudgeJob, JointFigureLiesBetweenItsBounds) {
  // min p ≥ joint ≥ 1 − Σ(1 − p): the same draws stand behind both.
  const JudgedJob job = judged(part("standard") + kService + limit("oor", "oor-1", "service", "at-most", "0.006 mm"), six(95, 40, 20));
  double least = 1.0;
  double sum = 0.0;
  for (const Verdict& verdict : job.judgement.verdicts) {
    least = std::min(least, verdict.plain->value);
    sum += 1.0 - verdict.plain->value;
  }
  EXPECT_GT(sum, 0.0);
  EXPECT_LE(job.judgement.joint.plain->value, least);
  EXPECT_GE(job.judgement.joint.plain->value, 1.0 - sum);
}

/// Codes and lines of what judging refuses; the job's text stands behind the head, which has 19 lines.
std::vector<std::string> refused(const std::string& job) {
  const Imported imported = import_folder({"f", std::string(kHead) + job, "part,station,direction,reading,unit,setting\n"});
  EXPECT_TRUE(imported.problems.empty()) << imported.problems.front().code;
  const Result<JudgedJob> result = judge_job(fold(imported.events).job, {{}, usual_accuracy()});
  std::vector<std::string> out;
  if (result.ok()) return out;
  for (const Problem& each : result.problems()) out.push_back(each.code + " " + std::to_string(each.place.line.value_or(0)));
  return out;
}

// A division of nothing made every reading a deviation of nothing, and a worn bore serviceable.
TEST(JudgeJob, ADialWithoutDivisionsIsRefusedWithItsLine) {
  const std::string gauge = "[[gauge]]\nid = \"b2\"\npreset = \"dial-bore-gauge-0-001-mm\"\npressed_in = \"clockwise\"\ndivision = \"";
  EXPECT_EQ(refused(gauge + "0 mm\"\n").size(), 1U);
  EXPECT_TRUE(refused(gauge + "0 mm\"\n").at(0).starts_with("gauging.division_not_positive 2"));
  EXPECT_TRUE(refused(gauge + "-0.001 mm\"\n").at(0).starts_with("gauging.division_not_positive"));
  EXPECT_TRUE(refused(gauge + "0.001 mm\"\n").empty());
}

// Zeros typed for a micrometer's setting were dropped without a word.
TEST(JudgeJob, ADirectGaugeHasNoNeedleZeros) {
  EXPECT_TRUE(refused("[[setting]]\nid = \"m\"\ngauge = \"mic\"\nclosing_zero = \"2 cw\"\n").at(0).starts_with("gauging.not_for_direct"));
}

// A refused gauge drew a second, false problem: "not in the job".
TEST(JudgeJob, ARefusedGaugeSaysItOnce) {
  EXPECT_EQ(refused("[[gauge]]\nid = \"mic2\"\npreset = \"outside-micrometer-75-100-mm\"\nreads = \"84.00 mm\"\n"
                    "[[setting]]\nid = \"s2\"\ngauge = \"bg\"\nmaster = \"mic2\"\nset = \"84.00 mm\"\n").size(), 1U);
}

// The notice offered a setting that was as far off, or farther.
TEST(JudgeJob, OnlyANearerSettingIsOffered) {
  const auto offers = [](const std::string& wanted, const std::string& set) {
    const std::string job = "[[gauge]]\nid = \"inch\"\npreset = \"outside-micrometer-3-4-in\"\n[[setting]]\nid = \"s2\"\ngauge = \"bg\"\n"
                            "master = \"inch\"\nwanted = \"" + wanted + "\"\nset = \"" + set + "\"\n";
    const JudgedJob result = judged(job, "part,station,direction,reading,unit,setting\n");
    return std::any_of(result.notices.begin(), result.notices.end(), [](const auto& each) { return each.key == "notice.nearer_setting"; });
  };
  EXPECT_FALSE(offers("84.0105 mm", "3.307 in"));   // 12.7 µm either way
  EXPECT_FALSE(offers("84.000 mm", "3.3071 in"));   // a vernier: 0.34 µm off, the thimble's own line 2.2 µm
  EXPECT_TRUE(offers("84.000 mm", "3.308 in"));     // 23 µm off
}

// One reading of six was "serviceable", and so was a bore whose worst place had been flagged and not read again.
TEST(JudgeJob, WithinIsNotSaidOfPlacesThatNobodyRead) {
  const std::string header = "part,station,direction,reading,unit,setting,flag\n";
  std::string rows = "bore-1,top,pin,50 acw,,s,\nbore-1,mid,thrust,40 acw,,s,\nbore-1,mid,pin,39 acw,,s,\nbore-1,bottom,thrust,20 acw,,s,\nbore-1,bottom,pin,19 acw,,s,\n";
  const JudgedJob flagged = judged(part("standard") + kService, header + rows + "bore-1,top,thrust,60 acw,,s,deposit\n");
  EXPECT_EQ(state(flagged), StateWord::not_judged);
  EXPECT_EQ(flagged.judgement.verdicts.at(0).reasons.at(0).code, "verdict.places_missing");
  EXPECT_EQ(state(judged(part("standard") + kService, header + rows + "bore-1,top,thrust,60 acw,,s,\n")), StateWord::serviceable);
  // What was read may still prove it beyond.
  EXPECT_EQ(state(judged(part("standard") + kService, header + "bore-1,top,thrust,150 acw,,s,\n")), StateWord::beyond);
}

// "As new" needs the size to be as new; being round is not enough.
TEST(JudgeJob, RoundIsNotNew) {
  EXPECT_EQ(state(judged(part("standard") + kService + limit("oor", "oor-1", "new", "at-most", "0.050 mm"), six(70, 40, 20))), StateWord::serviceable);
}

TEST(JudgeJob, WhatComesFromTheMachineIsHeldToTheNewLimits) {
  const std::string limits = kService + limit("low", "size-3", "new", "at-least", "84.030 mm");
  EXPECT_EQ(state(judged(part("standard", "machined") + limits, six(10, 9, 8))), StateWord::beyond);
  EXPECT_EQ(state(judged(part("standard", "worn") + limits, six(10, 9, 8))), StateWord::not_judged);
}

// A part at 90 °C had less doubt than one whose temperature nobody took.
TEST(JudgeJob, AWarmPartCarriesMoreDoubt) {
  const auto doubt = [](const std::string& temperature, std::size_t* notices) {
    const std::string job = part("standard") + kService + "[[setting]]\nid = \"t\"\ngauge = \"bg\"\nmaster = \"mic\"\nset = \"84.00 mm\"\n"
                            "master_temperature = \"20 °C\"\npart_temperature = \"" + temperature + "\"\n";
    const JudgedJob result = judged(job, "part,station,direction,reading,unit,setting\nbore-1,top,thrust,50 acw,,t\n");
    *notices = static_cast<std::size_t>(std::count_if(result.notices.begin(), result.notices.end(), [](const auto& each) { return each.key == "notice.temperatures_apart"; }));
    return result.judgement.verdicts.at(0).doubt->standard_uncertainty;
  };
  std::size_t notices = 0;
  const double cool = doubt("20 °C", &notices);
  EXPECT_EQ(notices, 0U);
  const double warm = doubt("40 °C", &notices);
  EXPECT_EQ(notices, 1U);
  // 84 mm · 20 °C · 1e-6/√3 per °C = 0.970 µm joins as the root of the squares.
  EXPECT_NEAR(std::sqrt(warm * warm - cool * cool) * 1e3, 0.970, 0.002);
}

// A bore far smaller than a new one of its step was "serviceable": only the upper limits were looked at.
TEST(JudgeJob, NothingWearsTheOtherWay) {
  const std::string limits = kService + limit("low", "size-3", "new", "at-least", "84.000 mm");
  const JudgedJob job = judged(part("+0.25 mm") + limits, six(60, 30, 20));
  EXPECT_EQ(state(job), StateWord::not_judged);
  EXPECT_EQ(job.judgement.states.at(0).reasons.at(0).key, "reason.not_worn_that_way");
  EXPECT_EQ(state(judged(part("standard") + limits, six(60, 30, 20))), StateWord::serviceable);
}

// A job that made frame flex larger made it count on direct readings too.
TEST(JudgeJob, AReplacedComponentCountsWhenItsPresetDoes) {
  const std::string flex = "[[gauge]]\nid = \"m2\"\npreset = \"outside-micrometer-75-100-mm\"\n"
                           "component = [{ id = \"frame-flex\", scope = \"master\", shape = \"rectangular\", half_width = \"50 µm\" }]\n"
                           "[[setting]]\nid = \"d\"\ngauge = \"m2\"\n";
  const std::string pin = "[[part]]\nid = \"pin\"\nkind = \"crankpin\"\nstep = \"standard\"\ncondition = \"worn\"\n";
  const JudgedJob job = judged(pin + flex, "part,station,direction,reading,unit,setting\npin,front,vertical,84.05 mm,,d\n");
  EXPECT_EQ(job.sizes.sizes.size(), 1U);
  for (const ErrorSource& source : job.sizes.sources) EXPECT_NE(source.component, "frame-flex");
}

TEST(OpenFolder, SaysWhatIsMissing) {
  EXPECT_EQ(open_folder("/no/such/folder").problems().at(0).code, "app.no_folder");
  EXPECT_EQ(open_folder(std::string(FETTLE_SOURCE_DIR) + "/docs").problems().at(0).code, "app.no_file");
}

TEST(OpenFolder, RefusesAFileThatCannotBeMeant) {
  const auto folder = std::filesystem::temp_directory_path() / ("fettle-large-" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "readings.csv") << "part\n";
  std::ofstream(folder / "job.toml") << "x";
  std::filesystem::resize_file(folder / "job.toml", (std::uintmax_t{64} << 20U) + 1);  // a hole: takes no disk
  EXPECT_EQ(open_folder(folder.string()).problems().at(0).code, "app.file_too_large");
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace fettle
