#include "job/folder.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "job/fold.h"

namespace fettle {
namespace {

const std::string kHead = "[job]\nid = \"j\"\nname = \"a job\"\ndecimal_mark = \"point\"\n";
const std::string kGauges =
    "[[gauge]]\nid = \"mic\"\npreset = \"outside-micrometer-75-100-mm\"\n"
    "[[gauge]]\nid = \"bg\"\npreset = \"dial-bore-gauge-0-001-mm\"\npressed_in = \"clockwise\"\n"
    "[[setting]]\nid = \"s\"\ngauge = \"bg\"\nmaster = \"mic\"\nset = \"84.000 mm\"\n"
    "[[setting]]\nid = \"m\"\ngauge = \"mic\"\n";
const std::string kPart = "[[part]]\nid = \"bore-1\"\nkind = \"cylinder-bore\"\nstep = \"standard\"\ncondition = \"worn\"\n";
const std::string kColumns = "part,station,direction,reading,unit,setting\n";

Imported import(const std::string& job, const std::string& readings = kColumns) { return import_folder({"f", job, readings}); }

/// "code line" of every problem, in the order given.
std::vector<std::string> told(const Imported& imported) {
  std::vector<std::string> out;
  for (const Problem& each : imported.problems) {
    out.push_back(each.code + " " + (each.place.line ? std::to_string(*each.place.line) : "-"));
  }
  return out;
}

TEST(Folder, BecomesEventsWithStableIds) {
  const Imported first = import(kHead + kPart + kGauges, kColumns + "bore-1,top,thrust,57 acw,,s\nbore-1,top,pin,48 acw,,s\n");
  ASSERT_TRUE(first.problems.empty()) << told(first).front();
  const Imported shuffled = import(kHead + kPart + kGauges, kColumns + "bore-1,top,pin,48 acw,,s\n# a remark\nbore-1,top,thrust,57 acw,,s\n");
  ASSERT_EQ(first.events.size(), shuffled.events.size());
  for (std::size_t i = 0; i < first.events.size(); ++i) {
    EXPECT_EQ(first.events[i].id, shuffled.events[i].id);
    EXPECT_EQ(first.events[i].device_sequence, static_cast<std::int64_t>(i + 1));
  }
  EXPECT_TRUE(fold(first.events).problems.empty());
}

TEST(Folder, ATomlSyntaxErrorIsReportedAlone) {
  const Imported imported = import("[job\nid = 1\n", "nonsense\n");
  EXPECT_EQ(told(imported), (std::vector<std::string>{"document.syntax 1"}));
  EXPECT_TRUE(imported.events.empty());
}

TEST(Folder, AllOtherProblemsComeTogether) {
  const Imported imported =
      import(kHead + "[[part]]\nid = \"bore-1\"\nkind = \"cylinder\"\nstep = \"standard\"\ncondition = \"tired\"\n" +
                 "[[finding]]\npart = \"bore-9\"\nwhat = \"crack\"\nweight = \"condemns\"\n" + "[[colour]]\n" + kGauges +
                 "[[setting]]\nid = \"s\"\ngauge = \"bg\"\nset = 84.02\n[rule]\nkind = \"probability\"\nlevel = \"0.3\"\n",
             kColumns + "bore-1,top,thrust,57,,s\nbore-1,,pin,1 acw,,s\n");
  const auto all = told(imported);
  for (const char* code : {"job.kind_unknown", "catalogue.unknown_word", "job.part_unknown", "catalogue.unknown_key", "job.two_ids",
                           "job.quantity_not_quoted", "job.level_range", "entry.no_side", "job.cell_empty"}) {
    EXPECT_TRUE(std::any_of(all.begin(), all.end(), [&](const auto& each) { return each.starts_with(code); })) << code;
  }
  EXPECT_TRUE(imported.events.empty());
}

TEST(Folder, ReadingsSayWhichColumnIsWrong) {
  EXPECT_EQ(told(import(kHead + kPart + kGauges, "part,station,direction,readign,unit,setting\n")),
            (std::vector<std::string>{"job.column_missing 1", "job.column_unknown 1"}));
  const std::string header = "part,station,direction,reading,unit,setting,order,flag,temperature\n";
  EXPECT_EQ(told(import(kHead + kPart + kGauges, header + "bore-1,top,thrust,1 acw,,s,first,,\nbore-1,top,pin,1 acw,,s,,rust,\n"
                                                          "bore-1,top,pin,1 acw,furlong,s,,,\nbore-1,top,pin,2 acw,,s,,,hot\n")),
            (std::vector<std::string>{"job.not_a_count 2", "job.flag_unknown 3", "job.unit_unknown 4", "entry.not_a_number 5"}));
}

TEST(Folder, TheSameRowTwiceIsAskedAbout) {
  EXPECT_EQ(told(import(kHead + kPart + kGauges, kColumns + "bore-1,top,pin,1 acw,,s\nbore-1,top,pin,1 acw,,s\n")),
            (std::vector<std::string>{"job.same_row_twice 3"}));
}

TEST(Folder, AMicrometerReadingIsAWholeSize) {
  const Imported imported = import(kHead + kPart + kGauges, kColumns + "bore-1,top,pin,84.02 mm,,m\nbore-1,top,thrust,84.02 mm acw,,m\n");
  EXPECT_EQ(told(imported), (std::vector<std::string>{"entry.side_not_wanted 3"}));
}

TEST(Folder, AMaterialMustBeKnown) {
  EXPECT_EQ(told(import(kHead + kPart + "material = \"cheese\"\n")), (std::vector<std::string>{"job.material_unknown 5"}));
}

TEST(Folder, AJobNeedsItsHead) { EXPECT_EQ(told(import(kPart)).front(), "catalogue.missing_key 1"); }

}  // namespace
}  // namespace fettle
