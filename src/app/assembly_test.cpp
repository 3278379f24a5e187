#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "app/judge_job.h"
#include "job/fold.h"
#include "job/folder.h"

namespace fettle {
namespace {

// Invented: a bore of 84 mm and its piston.
constexpr std::string_view kPair = R"(
[job]
id = "pair"
name = "a bore with its piston"
decimal_mark = "point"
[[gauge]]
id = "mic"
preset = "outside-micrometer-75-100-mm"
[[gauge]]
id = "other-mic"
preset = "outside-micrometer-75-100-mm"
[[gauge]]
id = "bg"
preset = "dial-bore-gauge-0-001-mm"
pressed_in = "clockwise"
[[setting]]
id = "bore"
gauge = "bg"
master = "mic"
set = "84.00 mm"
[[setting]]
id = "same"
gauge = "mic"
[[setting]]
id = "other"
gauge = "other-mic"
[[part]]
id = "bore-1"
kind = "cylinder-bore"
step = "standard"
condition = "worn"
[[part]]
id = "piston-1"
kind = "piston"
step = "standard"
condition = "worn"
[[part]]
id = "fit-1"
kind = "bore-and-piston"
members = { bore = "bore-1", piston = "piston-1" }
[[limit]]
id = "clearance"
kind = "bore-and-piston"
definition = "clr-1"
role = "service"
side = "at-most"
bound = "0.120 mm"
book = "b"
page = "1"
)";

constexpr std::string_view kBore = "part,station,direction,reading,unit,setting\n"
                                   "bore-1,top,thrust,31 acw,,bore\nbore-1,mid,thrust,20 acw,,bore\nbore-1,bottom,thrust,12 acw,,bore\n";

Imported imported(const std::string& job, const std::string& readings) { return import_folder({"f", job, readings}); }

JudgedJob judged(const std::string& readings, const std::string& more = {}) {
  const Imported folder = imported(std::string(kPair) + more, std::string(kBore) + readings);
  EXPECT_TRUE(folder.problems.empty()) << folder.problems.front().code;
  Result<JudgedJob> result = judge_job(fold(folder.events).job, {{}, usual_accuracy()});
  EXPECT_TRUE(result.ok()) << result.problems().front().code;
  return std::move(result).value();
}

const Verdict& verdict(const JudgedJob& job, const std::string& limit) {
  for (const Verdict& each : job.judgement.verdicts) {
    if (each.limit == limit) return each;
  }
  throw std::runtime_error(limit);
}

double share(const Verdict& verdict, const std::string& component) {
  for (const Share& each : verdict.doubt->shares) {
    if (each.component == component) return each.share;
  }
  return 0.0;
}

TEST(Assembly, AClearanceIsHoleMinusShaft) {
  const JudgedJob job = judged("piston-1,skirt,across,83.93 mm,,same\n");
  const Verdict& clearance = verdict(job, "clearance");
  EXPECT_EQ(in_unit(*clearance.as_measured, UnitId::millimetre, 4), "0.0900");  // 84.020 - 83.930
  EXPECT_EQ(clearance.word, VerdictWord::within);
  EXPECT_EQ(job.judgement.states.back().part, "fit-1");
  EXPECT_EQ(job.judgement.states.back().word, StateWord::serviceable);
}

TEST(Assembly, EachClearanceHasItsPlaces) {
  // Top 84.031, middle 84.020, bottom 84.012; piston 83.930; nothing was read directly.
  const JudgedJob job = judged("piston-1,skirt,across,83.93 mm,,same\n");
  std::vector<std::pair<std::string, std::string>> values;
  for (const AsMeasured& each : job.measured) {
    if (each.part == "fit-1") values.emplace_back(each.definition, each.value ? in_unit(*each.value, UnitId::millimetre, 3) : "-");
  }
  EXPECT_EQ(values, (std::vector<std::pair<std::string, std::string>>{
                        {"clr-1", "0.090"}, {"clr-2", "0.101"}, {"clr-least", "0.082"}, {"clr-6", "-"}, {"clr-3", "-"}}));
}

// What the micrometer reads wrong (± 5 µm, rectangular) stands in both sizes: by one it cancels, by two it adds by its squares.
TEST(Assembly, OneMicrometerCancelsAndTwoAddUp) {
  const JudgedJob one = judged("piston-1,skirt,across,83.93 mm,,same\n");
  const JudgedJob two = judged("piston-1,skirt,across,83.93 mm,,other\n");
  const Doubt& by_one = *verdict(one, "clearance").doubt;
  const Doubt& by_two = *verdict(two, "clearance").doubt;
  const double more = by_two.standard_uncertainty * by_two.standard_uncertainty - by_one.standard_uncertainty * by_one.standard_uncertainty;
  EXPECT_NEAR(more, 2.0 * 0.005 * 0.005 / 3.0, 1e-12);
  EXPECT_EQ(share(verdict(one, "clearance"), "limit-of-error"), 0.0);
  EXPECT_NEAR(share(verdict(two, "clearance"), "limit-of-error") * by_two.standard_uncertainty * by_two.standard_uncertainty, more, 1e-12);
  // Frame flex counts where the micrometer is lent; zero, dial and repeat of the bore gauge; feel and half a graduation of the micrometer.
  const double lengths = (9.0 + 25.0 + 25.0 + 9.0 + 0.25 + 9.0 + 25.0) / 3.0;
  // One workshop: bore and piston are off 20 °C together, and grow apart by the difference of their expansions.
  const double temperature = 2.0 * 1000.0 * (84.020 * 10.8e-6 - 83.930 * 19e-6);
  EXPECT_NEAR(by_one.standard_uncertainty * 1000.0, std::sqrt(lengths + temperature * temperature), 1e-6);
}

constexpr std::string_view kLocked = "[[setting]]\nid = \"on-piston\"\ngauge = \"bg\"\nmaster = \"mic\"\nlocked_on = \"piston-1\"\n";

// The micrometer is locked on the piston: the dial reads the clearance, and what the micrometer shows wrong does not enter.
TEST(Assembly, AGaugeLockedOnThePistonReadsClearance) {
  const std::string limit = "[[limit]]\nid = \"direct\"\nkind = \"bore-and-piston\"\ndefinition = \"clr-6\"\nrole = \"service\"\n"
                            "side = \"at-most\"\nbound = \"0.120 mm\"\nbook = \"b\"\npage = \"1\"\n";
  const JudgedJob job = judged("fit-1,top,thrust,95 acw,,on-piston\n", std::string(kLocked) + "wanted = \"84 mm\"\n" + limit);
  const Verdict& direct = verdict(job, "direct");
  EXPECT_EQ(in_unit(*direct.as_measured, UnitId::millimetre, 4), "0.0950");
  const double temperature = 2.0 * 1000.0 * 84.0 * (10.8e-6 - 19e-6);  // bore and piston grow apart
  EXPECT_NEAR(direct.doubt->standard_uncertainty * 1000.0, std::sqrt((25.0 + 25.0 + 9.0 + 0.25) / 3.0 + temperature * temperature), 1e-6);
  EXPECT_EQ(share(direct, "limit-of-error"), 0.0);
  EXPECT_TRUE(std::any_of(job.notices.begin(), job.notices.end(), [](const Message& each) { return each.key == "notice.reads_clearance"; }));
  EXPECT_EQ(std::count_if(job.sizes.masters.begin(), job.sizes.masters.end(), [](const auto& each) { return each.setting == "on-piston"; }), 0);
}

TEST(Assembly, WhatIsLockedOnAPartReadsNothingElse) {
  const auto codes = [](const std::string& more, const std::string& reading) {
    const Imported folder = imported(std::string(kPair) + more, std::string(kBore) + reading);
    std::vector<std::string> out;
    for (const Problem& each : folder.problems) out.push_back(each.code);
    if (!out.empty()) return out;
    const auto result = judge_job(fold(folder.events).job, {{}, usual_accuracy()});
    if (!result.ok()) {
      for (const Problem& each : result.problems()) out.push_back(each.code);
    }
    return out;
  };
  using Codes = std::vector<std::string>;
  const std::string locked(kLocked);
  EXPECT_EQ(codes(locked + "wanted = \"84 mm\"\n", "bore-1,top,pin,95 acw,,on-piston\n"), Codes{"gauging.reads_clearance"});
  EXPECT_EQ(codes(locked, ""), Codes{"gauging.locked_and_set"});
  EXPECT_EQ(codes(locked + "wanted = \"84 mm\"\nset = \"84.00 mm\"\n", ""), Codes{"gauging.locked_and_set"});
  EXPECT_EQ(codes("[[gauge]]\nid = \"ring\"\npreset = \"setting-ring\"\nmarked = \"84 mm\"\n[[setting]]\nid = \"r\"\ngauge = \"bg\"\nmaster = \"ring\"\n"
                  "locked_on = \"piston-1\"\nwanted = \"84 mm\"\n", ""),
            Codes{"gauging.locked_no_micrometer"});
  EXPECT_EQ(codes("[[setting]]\nid = \"n\"\ngauge = \"bg\"\nmaster = \"mic\"\nlocked_on = \"nobody\"\nwanted = \"84 mm\"\n", ""), Codes{"job.part_unknown"});
}

TEST(Assembly, WhatWasNotReadIsNamed) {
  const JudgedJob job = judged("");
  const Verdict& clearance = verdict(job, "clearance");
  EXPECT_EQ(clearance.word, VerdictWord::not_judged);
  ASSERT_EQ(clearance.reasons.size(), 1U);
  EXPECT_EQ(clearance.reasons.front().code, "form.needs_places");
}

TEST(Assembly, RefusesMembersThatDoNotFit) {
  const auto codes = [](const std::string& members) {
    std::vector<std::string> out;
    const std::string more = "[[part]]\nid = \"fit-2\"\nkind = \"bore-and-piston\"\n" + members + "\n";
    for (const Problem& each : imported(std::string(kPair) + more, std::string(kBore)).problems) out.push_back(each.code);
    return out;
  };
  using Codes = std::vector<std::string>;
  EXPECT_EQ(codes("members = { bore = \"bore-1\", piston = \"piston-1\" }"), Codes{});
  EXPECT_EQ(codes(""), Codes{"catalogue.missing_key"});
  EXPECT_EQ(codes("members = { bore = \"bore-1\" }"), Codes{"catalogue.missing_key"});
  EXPECT_EQ(codes("members = { bore = \"bore-9\", piston = \"piston-1\" }"), Codes{"job.part_unknown"});
  EXPECT_EQ(codes("members = { bore = \"piston-1\", piston = \"piston-1\" }"), Codes{"job.member_kind"});
}

TEST(Assembly, ADefinitionOfAnotherKindIsRefused) {
  const std::string more =
      "[[limit]]\nid = \"odd\"\nkind = \"bore-and-piston\"\ndefinition = \"size-1\"\nrole = \"service\"\nside = \"at-most\"\n"
      "bound = \"1 mm\"\nbook = \"b\"\npage = \"1\"\n";
  const Imported folder = imported(std::string(kPair) + more, std::string(kBore));
  ASSERT_EQ(folder.problems.size(), 1U);
  EXPECT_EQ(folder.problems.front().code, "limits.not_for_feature");
}

}  // namespace
}  // namespace fettle
