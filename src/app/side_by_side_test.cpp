#include "verdict/side_by_side.h"

#include <gtest/gtest.h>

#include <map>

#include "app/judge_job.h"
#include "job/fold.h"
#include "job/folder.h"

namespace fettle {
namespace {

// K-01: the same six readings under every definition of taper.
constexpr std::string_view kJob = R"([job]
id = "k-01"
name = "six readings"
decimal_mark = "point"
[[gauge]]
id = "inside"
preset = "inside-micrometer-mm"
[[setting]]
id = "s"
gauge = "inside"
[[part]]
id = "bore"
kind = "cylinder-bore"
step = "standard"
condition = "worn"
[end]
)";
constexpr std::string_view kReadings = R"(part,station,direction,reading,setting
bore,top,thrust,88.062 mm,s
bore,top,pin,88.041 mm,s
bore,mid,thrust,88.048 mm,s
bore,mid,pin,88.052 mm,s
bore,bottom,thrust,88.018 mm,s
bore,bottom,pin,88.026 mm,s
)";

std::vector<SideBySide> beside(const std::string& definition, const std::string& bound) {
  std::string job(kJob);
  job.erase(job.find("[end]"));
  job += "[[limit]]\nid = \"l\"\nkind = \"cylinder-bore\"\ndefinition = \"" + definition + "\"\nrole = \"service\"\nside = \"at-most\"\nbound = \"" +
         bound + "\"\nbook = \"b\"\npage = \"1\"\n";
  const Imported folder = import_folder({"f", job, std::string(kReadings)});
  EXPECT_TRUE(folder.problems.empty()) << folder.problems.front().code;
  const Rule reading{RuleKind::reading, Ratio::of(95, 100), TieRule::equal_is_within};
  const auto judged = judge_job(fold(folder.events).job, {reading, usual_accuracy(), JudgeDetail::side_by_side});
  EXPECT_TRUE(judged.ok());
  return judged.value().side_by_side;
}

TEST(SideBySide, TheSameReadingsUnderEveryTaper) {
  const auto all = beside("tap-2", "0.040 mm");
  ASSERT_EQ(all.size(), 1U);
  std::map<std::string, std::string> figures;
  for (const auto& each : all.front().under) figures[each.definition] = in_unit(*each.verdict.as_measured, UnitId::millimetre, 4);
  EXPECT_EQ(figures, (std::map<std::string, std::string>{
                         {"tap-1", "0.0440"}, {"tap-2", "0.0440"}, {"tap-3", "0.0440"}, {"tap-4", "0.0295"}, {"tap-5", "0.0440"}, {"tap-9", "0.0440"}}));
  EXPECT_EQ(all.front().under.front().definition, "tap-2");
}

TEST(SideBySide, WhereTheChoiceDecidesItIsSaid) {
  EXPECT_TRUE(beside("tap-2", "0.040 mm").front().decides);   // tap-4 alone keeps it
  EXPECT_FALSE(beside("tap-2", "0.050 mm").front().decides);  // all keep it
  EXPECT_FALSE(beside("oor-1", "0.030 mm").front().decides);
  EXPECT_TRUE(beside("size-1", "88.1 mm").empty());  // the other end of a size is no other meaning of it
}

}  // namespace
}  // namespace fettle
