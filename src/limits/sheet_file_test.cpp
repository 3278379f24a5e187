#include "limits/sheet_file.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "limits/proof.h"
#include "limits/proof_desk.h"
#include "limits/sheet_table.h"

namespace fettle {
namespace {

const std::string kSheet = R"~([sheet]
book = "Invented four, workshop book"
edition = "2"
original = "mm"

[[row]]
id = "bore"
what = "Cylinder bore"
kind = "cylinder-bore"
definition = "size-1"
page = "12"
new = "84.000-84.020 mm (3.3071-3.3079 in)"
wear = "84.100 mm"

[[row]]
what = "Piston"
page = "12"
step = "0.25 mm"
grade = "A"
new = "up to 84.205 mm"
note = "measured across the skirt"

[[row]]
id = "key"
what = "Key"
new = "2-1/32 in"
)~";

LimitSheet read(const std::string& text) {
  auto sheet = read_sheet_file(text, "sheet.toml", catalogue());
  EXPECT_TRUE(sheet.ok()) << (sheet.ok() ? "" : sheet.problems().front().code);
  return sheet.ok() ? std::move(sheet).value() : LimitSheet{};
}
std::vector<std::string> codes(const std::string& text) {
  std::vector<std::string> out;
  const auto sheet = read_sheet_file(text, "sheet.toml", catalogue());
  if (sheet.ok()) return {"read"};
  for (const Problem& each : sheet.problems()) out.push_back(each.code);
  return out;
}

TEST(SheetFile, IsReadAndWrittenAndReadAgain) {
  const LimitSheet sheet = read(kSheet);
  ASSERT_EQ(sheet.rows.size(), 3U);
  EXPECT_EQ(sheet.rows[1].id, "piston-0-25-a");
  EXPECT_EQ(shown(sheet.rows[0].fresh), "84.000…84.020 mm = 3.3071…3.3079 in");
  const std::string written = sheet_file_text(sheet);
  EXPECT_EQ(sheet_file_text(read(written)), written);
  for (std::size_t i = 0; i < sheet.rows.size(); ++i) EXPECT_EQ(shown(read(written).rows[i].fresh), shown(sheet.rows[i].fresh));
  EXPECT_EQ(read(written).rows[2].fresh.from.inch->quantity.value, Ratio::of(65, 32));
}

TEST(SheetFile, WhatIsWrongIsSaidAtOnce) {
  EXPECT_EQ(codes("[sheet]\nbook = \"x\"\n[[row]]\nwhat = \"Bore\"\nnew = \"84\"\nwear = \"1-2 mm\"\ncolour = \"red\"\n"), (std::vector<std::string>{"entry.no_unit", "limits.range_here", "catalogue.unknown_key"}));
  EXPECT_EQ(codes("[sheet]\nbook = \"x\"\n"), (std::vector<std::string>{"limits.no_rows"}));
  EXPECT_EQ(codes("[sheet]\nbook = \"x\"\n[[row]]\nwhat = \"Bore\"\n"), (std::vector<std::string>{"limits.row_empty"}));
}

const std::string kSlipped = R"~([sheet]
book = "Invented"
[[row]]
id = "play"
what = "Play"
new = "0.0889 mm (.0025 in)"
)~";
std::string decided(const std::string& words, const std::string& printed = "0.0889 mm = 0.0025 in") {
  return kSlipped + "[[decision]]\nrule = \"units-disagree\"\nrow = \"play\"\nfield = \"new-from\"\nprinted = \"" + printed + "\"\nwho = \"JB\"\nwhen = \"2026-01-05\"\n" + words;
}

TEST(SheetDecisions, AsPrintedStaysAndIsRemembered) {
  const auto findings = proof_read(read(decided("decided = \"as-printed\"\n")), catalogue());
  ASSERT_EQ(findings.size(), 1U);
  ASSERT_TRUE(findings[0].decided);
  EXPECT_EQ(findings[0].decided->who, "JB");
}

TEST(SheetDecisions, PutRightIsReadAsPutRight) {
  const LimitSheet sheet = read(decided("decided = \"put-right\"\nto = \"0.0635 mm (.0025 in)\"\n"));
  EXPECT_TRUE(proof_read(sheet, catalogue()).empty());
  EXPECT_EQ(shown(as_decided(sheet).rows[0].fresh.from), "0.0635 mm = 0.0025 in");
  EXPECT_EQ(shown(sheet.rows[0].fresh.from), "0.0889 mm = 0.0025 in") << "what is printed stays as it is";
}

TEST(SheetDecisions, OneAboutAnotherFigureIsNone) {
  const auto findings = proof_read(read(decided("decided = \"as-printed\"\n", "0.0888 mm = 0.0025 in")), catalogue());
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_FALSE(findings[0].decided);
}

}  // namespace
}  // namespace fettle
