#include "job/limits_of_sheets.h"

#include <gtest/gtest.h>

#include "job/fold.h"
#include "job/invariants.h"
#include "limits/sheet_file.h"

namespace fettle {
namespace {

const std::string kHead = "[sheet]\nbook = \"Invented four\"\nedition = \"2\"\n";
const std::string kBore = "[[row]]\nid = \"bore\"\nwhat = \"Cylinder bore\"\nkind = \"cylinder-bore\"\ncharacteristic = \"size\"\npage = \"12\"\nnew = \"84.000-84.020 mm\"\n";

LimitSheet sheet(const std::string& rows) { return read_sheet_file(kHead + rows, "sheet.toml", catalogue()).value(); }
EventEnvelope event(const std::string& id, Payload payload) { return {std::string(31, '0') + id, "job-1", "bench", 1, "", "", std::move(payload)}; }
std::vector<std::string> ids(const Job& job) {
  std::vector<std::string> out;
  for (const auto& each : job.limits) out.push_back(each.value.id);
  return out;
}

TEST(LimitsOfSheets, ASheetGivesItsLimitsWithItsEventAndItsRow) {
  const Folded out = fold({event("1", SheetEntered{"book", sheet(kBore + "wear = \"84.100 mm\"\n"), ""})});
  ASSERT_TRUE(out.problems.empty());
  EXPECT_EQ(ids(out.job), (std::vector<std::string>{"book.bore-new-min", "book.bore-new-max", "book.bore-wear"}));
  EXPECT_EQ(out.job.limits.back().event, std::string(31, '0') + "1");
  EXPECT_EQ(out.job.limits.back().value.origin.sheet, (SheetOrigin{"book", "bore", false, ""}));
  EXPECT_EQ(out.job.limits.back().value.origin.page, "12");
}

TEST(LimitsOfSheets, TheLastVersionCountsAndTheEarlierOneStays) {
  const auto first = event("1", SheetEntered{"book", sheet(kBore + "wear = \"84.100 mm\"\n"), ""});
  const auto other = event("2", SheetEntered{"other", sheet(kBore), ""});
  const auto second = event("3", SheetEntered{"book", sheet(kBore + "wear = \"84.120 mm\"\n"), "misread"});
  const Folded out = fold({first, other, second});
  ASSERT_EQ(out.job.sheets.size(), 2U);
  EXPECT_EQ(out.job.sheets.front().value.why, "misread") << "it keeps its place in the order";
  EXPECT_EQ(out.job.earlier_sheets.front().event, first.id);
  EXPECT_EQ(out.job.limits.at(2).value.bound.text, "84.120 mm");
  EXPECT_EQ(out.job.limits.size(), 5U);
  const Folded back = fold({first, other, second, event("4", EventWithdrawn{second.id, "it was right"})});
  EXPECT_EQ(back.job.limits.at(2).value.bound.text, "84.100 mm");
  EXPECT_TRUE(back.job.earlier_sheets.empty());
}

TEST(LimitsOfSheets, AnOpenQuestionAndAnUnsaidDefinitionAreMarked) {
  const Folded out = fold({event("1", SheetEntered{"book", sheet(kBore + "wear = \"84.100 mm (3.3310 in)\"\n" +
                                                                 "[[row]]\nid = \"oor\"\nwhat = \"Out of round\"\nkind = \"cylinder-bore\"\ncharacteristic = \"out-of-round\"\npage = \"12\"\nwear = \"0.050 mm\"\n"), ""})});
  ASSERT_EQ(out.job.limits.size(), 5U);
  EXPECT_TRUE(out.job.limits.at(2).value.origin.sheet->open);
  EXPECT_EQ(out.job.limits.at(3).value.id, "book.oor-wear-oor-1");
  EXPECT_EQ(out.job.limits.at(3).value.origin.sheet->unsaid, "book.oor-wear");
  EXPECT_EQ(out.job.limits.at(4).value.origin.sheet->unsaid, "book.oor-wear");
}

TEST(LimitsOfSheets, ASheetThatThisCatalogueCannotReadGivesNone) {
  LimitSheet strange = sheet(kBore);
  strange.rows.front().kind = "sleeve-of-somebody";
  const Folded out = fold({event("1", SheetEntered{"book", strange, ""})});
  EXPECT_TRUE(out.job.limits.empty());
  const Problems problems = problems_of_sheets(out.job);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems.front().code, "limits.unknown_kind");
  EXPECT_EQ(problems.front().place.file, "book");
}

TEST(LimitsOfSheets, AnIdNamesFilesAndLimits) {
  EXPECT_TRUE(sheet_id_problems("book-2_b", {}).empty());
  for (const char* bad : {"", "my book", "a/b", "über", "a.b"}) EXPECT_EQ(sheet_id_problems(bad, {}).front().code, "job.sheet_id_bad") << bad;
  EXPECT_FALSE(sheet_id_problems(std::string(41, 'a'), {}).empty());
}

TEST(LimitsOfSheets, WhatWasDecidedOfALimitStaysRightWhenTheNextVersionDropsIt) {
  const auto opened = event("0", JobOpened{"J", {}, {}, UnitId::millimetre, ""});
  const auto part = event("a", PartEntered{Part{"bore-1", "cylinder-bore", "1", {}, Step{StepKind::standard, {}, ""}, Condition::worn, {}}});
  const auto first = event("1", SheetEntered{"book", sheet(kBore + "wear = \"84.100 mm\"\n"), ""});
  const auto taken = event("2", VerdictTaken{"bore-1", "book.bore-wear", TakenWord::within, "", VerdictWord::within});
  const auto second = event("3", SheetEntered{"book", sheet(kBore), ""});
  EXPECT_TRUE(broken_rules(fold({opened, part, first, taken, second}).job).empty());
  EXPECT_FALSE(broken_rules(fold({opened, part, second, taken}).job).empty());
}

}  // namespace
}  // namespace fettle
