#include "job/study_file.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace fettle {
namespace {

constexpr const char* kHead = "[study]\ngauge = \"dbg\"\npreset = \"dial-bore-gauge-0-01-mm\"\n";

std::vector<std::string> codes(const Problems& problems) {
  std::vector<std::string> out;
  for (const Problem& each : problems) out.push_back(each.code);
  return out;
}

StudyHead head_of(const std::string& more = "") {
  Problems problems;
  auto head = read_study_head(kHead + more, "study.toml", catalogue(), problems);
  EXPECT_TRUE(problems.empty());
  return head.value();
}

std::vector<std::string> codes_of_rows(const std::string& rows, StudyHead head) {
  Problems problems;
  read_study_rows(rows, "readings.csv", head, problems);
  return codes(problems);
}

TEST(StudyFile, ReadsAHeadAndItsRows) {
  StudyHead head = head_of("division = \"0.002 mm\"\ntolerance = \"0.030 mm\"\nwhen = \"2031-05-01\"\n");
  EXPECT_TRUE(head.study.on_a_dial);
  EXPECT_EQ(head.study.division, Length::counts(20'000));
  EXPECT_EQ(head.readings_file, "readings.csv");
  Problems problems;
  read_study_rows("part;person;repeat;reading;unit\nr1;Anna;1;1.5 acw;\nr1;Anna;2;0.002 mm cw;\nr1;Bert;1;0;\n", "readings.csv", head, problems);
  EXPECT_EQ(codes(problems), std::vector<std::string>{});
  ASSERT_EQ(head.study.readings.size(), 3U);
  EXPECT_EQ(head.study.readings[0].person, "Anna");
  EXPECT_EQ(head.study.readings[0].shows.side, NeedleSide::anticlockwise);
}

TEST(StudyFile, OnePersonNeedsNoColumn) {
  StudyHead head = head_of("person = \"Anna\"\n");
  Problems problems;
  read_study_rows("part,reading\nr1,1 cw\n", "readings.csv", head, problems);
  ASSERT_TRUE(problems.empty());
  EXPECT_EQ(head.study.readings[0].person, "Anna");
  EXPECT_EQ(codes_of_rows("part,person,reading\nr1,Anna,1 cw\n", head), std::vector<std::string>{"job.study_person_twice"});
}

TEST(StudyFile, RefusesAllThatIsWrongAtOnce) {
  Problems problems;
  EXPECT_FALSE(read_study_head("[study]\ngauge = \"g\"\npreset = \"dial-bore\"\ntolerance = 0.03\nwhat = 1\n", "study.toml", catalogue(), problems));
  std::vector<std::string> found = codes(problems);
  EXPECT_EQ(std::count(found.begin(), found.end(), "job.quantity_not_quoted"), 1);
  EXPECT_EQ(found.size(), 3U);  // preset, tolerance, the unknown key
  problems.clear();
  EXPECT_FALSE(read_study_head(std::string(kHead) + "readings = \"../readings.csv\"\ndivision = \"0 mm\"\n", "study.toml", catalogue(), problems));
  EXPECT_EQ(codes(problems), std::vector<std::string>{"job.study_file_bad"});
  problems.clear();
  EXPECT_TRUE(read_study_head(std::string(kHead) + "division = \"0 mm\"\n", "study.toml", catalogue(), problems));
  EXPECT_EQ(codes(problems), std::vector<std::string>{"gauging.division_not_positive"});
  EXPECT_EQ(codes_of_rows("part,who,reading\nr1,A,1 cw\n", head_of()), (std::vector<std::string>{"job.column_missing", "job.column_unknown"}));
  EXPECT_EQ(codes_of_rows("part,person,reading,unit,repeat\n,A,1 cw,,\nr1,A,1 cw,bows,1\nr1,A,2 cw,,1\nr1,A,2 cw,,x\nr1,A,wide,,\n", head_of()),
            (std::vector<std::string>{"job.cell_empty", "job.unit_unknown", "job.study_repeat_twice", "job.not_a_count", "entry.not_a_number"}));
}

}  // namespace
}  // namespace fettle
