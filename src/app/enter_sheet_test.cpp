#include "app/enter_sheet.h"

#include <gtest/gtest.h>

#include "app/proof_sheets.h"
#include "app/record_on_bench.h"
#include "catalogue/catalogue.h"
#include "job/fold.h"
#include "job/folder_text.h"
#include "limits/sheet_file.h"

namespace fettle {
namespace {

const std::string kJob = "tern-curlew-3";

LimitSheet sheet(const std::string& wear) {
  return read_sheet_file("[sheet]\nbook = \"Invented three\"\n[[row]]\nid = \"bore\"\nwhat = \"Cylinder bore\"\nkind = \"cylinder-bore\"\ncharacteristic = \"size\"\npage = \"12\"\nwear = \"" + wear + "\"\n", "s.toml", catalogue()).value();
}

struct Bench : RecordOnBench {
  Bench() { EXPECT_TRUE(take(read_folder(kExample).value()).ok()); }
  [[nodiscard]] Result<std::string> enter(const std::string& wear, const std::string& why = "") { return enter_sheet(store, recorded(kJob), {"book", sheet(wear), why}, doing); }
};

std::string bound(const Job& job) {
  const auto found = std::find_if(job.limits.begin(), job.limits.end(), [](const auto& each) { return each.value.id == "book.bore-wear"; });
  return found == job.limits.end() ? "" : found->value.bound.text;
}

TEST(EnterSheet, TheJobKeepsEveryVersionAndIsJudgedByTheLast) {
  Bench bench;
  const std::string first = bench.enter("84.100 mm").value();
  EXPECT_EQ(bound(bench.recorded(kJob).job), "84.100 mm");
  ASSERT_TRUE(bench.enter("84.080 mm", "misread").ok());
  const Job job = bench.recorded(kJob).job;
  EXPECT_EQ(bound(job), "84.080 mm");
  EXPECT_EQ(job.earlier_sheets.front().event, first);
  EXPECT_EQ(job.earlier_sheets.front().value.of, sheet("84.100 mm"));
}

TEST(EnterSheet, ANextVersionNeedsAReasonAndADifference) {
  Bench bench;
  ASSERT_TRUE(bench.enter("84.100 mm").ok());
  EXPECT_EQ(refused(bench.enter("84.080 mm")), "record.no_reason");
  EXPECT_EQ(refused(bench.enter("84.100 mm", "again")), "record.sheet_same");
}

TEST(EnterSheet, EverythingWrongIsToldAtOnce) {
  LimitSheet strange = sheet("84.100 mm");
  strange.book.clear();
  strange.rows.front().kind = "sleeve-of-somebody";
  const Problems problems = problems_of_sheet(Job{}, {"my book", strange, ""});
  ASSERT_EQ(problems.size(), 3U);
  EXPECT_EQ(problems[0].code, "job.sheet_id_bad");
  EXPECT_EQ(problems[1].code, "limits.unknown_kind");
  EXPECT_EQ(problems[2].code, "record.sheet_no_book");
}

TEST(EnterSheet, AnExportedFolderJudgesTheSame) {
  Bench bench;
  ASSERT_TRUE(bench.enter("84.100 mm (3.3110 in)").ok());
  const RecordedJob recorded = bench.recorded(kJob);
  const WrittenFolder written = written_folder(recorded.events).value();
  EXPECT_TRUE(written.refused.empty());
  ASSERT_EQ(written.texts.sheets.size(), 1U);
  EXPECT_EQ(written.texts.sheets.front().file, "limits-book.toml");
  for (const Message& each : written.left_out) EXPECT_NE(each.key, "folder.differs");
  FolderTexts texts = written.texts;
  texts.path = "again";
  const Imported again = import_folder(texts);
  ASSERT_TRUE(again.problems.empty());
  const Job job = fold(again.events).job;
  ASSERT_EQ(job.limits.size(), recorded.job.limits.size());
  for (std::size_t i = 0; i < job.limits.size(); ++i) EXPECT_EQ(job.limits[i].value, recorded.job.limits[i].value);
  EXPECT_EQ(written_folder(again.events).value().texts.sheets.front().text, texts.sheets.front().text);
}

TEST(EnterSheet, ASheetThatJobTomlNamesMustBeThere) {
  FolderTexts texts = read_folder(kExample).value();
  texts.job_toml += "\n[[sheet]]\nid = \"book\"\nfile = \"book.toml\"\n[[sheet]]\nid = \"other\"\nfile = \"../other.toml\"\n";
  EXPECT_EQ(sheet_files_of(texts.job_toml), (std::vector<std::string>{"book.toml", "../other.toml"}));
  const Problems problems = import_folder(texts).problems;
  ASSERT_EQ(problems.size(), 3U);
  EXPECT_EQ(problems[0].code, "job.sheet_missing");
  EXPECT_EQ(problems[1].code, "job.sheet_file_bad");
  EXPECT_EQ(problems[2].code, "job.sheet_missing");
}

TEST(EnterSheet, IdsFollowTheFile) {
  EXPECT_EQ(sheet_id("", "folder/limits-book.toml"), "book");
  EXPECT_EQ(sheet_id("", "my-book.csv"), "my-book");
  EXPECT_EQ(sheet_id("other", "my-book.csv"), "other");
}

}  // namespace
}  // namespace fettle
