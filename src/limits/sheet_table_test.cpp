#include "limits/sheet_table.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "limits/proof_desk.h"

namespace fettle {
namespace {

Result<LimitSheet> read(const std::string& text) { return read_sheet_table(text, "sheet.csv", catalogue()); }

std::vector<std::string> codes(const std::string& text) {
  std::vector<std::string> out;
  const auto sheet = read(text);
  if (sheet.ok()) return {"read"};
  for (const Problem& each : sheet.problems()) out.push_back(each.code);
  return out;
}
using Codes = std::vector<std::string>;

TEST(SheetTable, OneTablePastedInTwoDialectsIsOneSheet) {
  const auto german = read("was;stufe (mm);neu (mm);verschlei\xDF (mm)\r\nZylinderbohrung f\xFCr Kolben;;84,000-84,020;84,100\r\n;0,25;84,250-84,270;84,350\r\n");
  const auto english = read("\xEF\xBB\xBFwhat\tstep (mm)\tnew (mm)\twear (mm)\nZylinderbohrung f\xC3\xBCr Kolben\t\t84.000-84.020\t84.100\n\t0.25\t84.250-84.270\t84.350\n");
  ASSERT_TRUE(german.ok()) << german.problems().front().code;
  ASSERT_TRUE(english.ok()) << english.problems().front().code;
  ASSERT_EQ(german.value().rows.size(), 2U);
  for (std::size_t i = 0; i < 2; ++i) {
    const SheetRow& a = german.value().rows[i];
    const SheetRow& b = english.value().rows[i];
    EXPECT_EQ(a.what, b.what);
    EXPECT_EQ(a.id, b.id);
    EXPECT_EQ(shown(a.fresh), shown(b.fresh));
    EXPECT_EQ(a.wear.metric->quantity, b.wear.metric->quantity);
    EXPECT_EQ(shown(a.step), shown(b.step));
  }
  EXPECT_EQ(german.value().rows[1].what, "Zylinderbohrung für Kolben") << "a joined cell goes on";
  EXPECT_EQ(german.value().rows[1].id, "zylinderbohrung-für-kolben-0-25");
}

TEST(SheetTable, SaysWhatHoldsForThePage) {
  const auto sheet = read("# book: Invented engine\n# edition: 2\n# page: 12\n# original: in\nwhat;new (in);page\nBore;3.5;\nPin;.9;13\n");
  ASSERT_TRUE(sheet.ok());
  EXPECT_EQ(sheet.value().book, "Invented engine");
  EXPECT_EQ(sheet.value().edition, "2");
  EXPECT_EQ(sheet.value().original, UnitFamily::inch);
  EXPECT_EQ(sheet.value().rows[0].page, "12");
  EXPECT_EQ(sheet.value().rows[1].page, "13");
  EXPECT_EQ(codes("# original: kg\nwhat;new\nBore;3 in\n"), (Codes{"limits.original_unknown"}));
}

TEST(SheetTable, UtfSixteenAndOfficeSignsAreRead) {
  std::string wide = "\xFF\xFE";
  for (const char each : std::string("what;new (mm)\nBore;84.0\n")) wide += std::string{each, '\0'};
  EXPECT_EQ(codes(wide), (Codes{"read"}));
  // An office program's dash (0x96) in a table that is no UTF-8.
  const auto dash = read("what;new (mm)\nBore;84.000\x96""84.020\n");
  ASSERT_TRUE(dash.ok());
  EXPECT_EQ(shown(dash.value().rows[0].fresh), "84.000…84.020 mm");
}

TEST(SheetTable, EverythingWrongIsSaidAtOnceWithItsCell) {
  const auto sheet = read("what;new (mm);wear (mm)\nBore;84.000-84.020;84.1 in\n;84.0;\nPin;;\nShaft;1.0-1.1-1.2;abc\n");
  ASSERT_FALSE(sheet.ok());
  std::vector<std::pair<std::string, int>> found;
  for (const Problem& each : sheet.problems()) found.emplace_back(each.code, each.place.line.value_or(0));
  EXPECT_EQ(found, (std::vector<std::pair<std::string, int>>{{"entry.two_units", 2}, {"limits.row_unnamed", 3}, {"limits.row_empty", 4}, {"limits.cell_range", 5}, {"entry.not_a_number", 5}}));
}

TEST(SheetTable, HeadingsThatAreNone) {
  EXPECT_EQ(codes("what;colour;new (mm)\nBore;red;84\n"), (Codes{"limits.column_unknown"}));
  EXPECT_EQ(codes("what;new (parsec)\nBore;84\n"), (Codes{"limits.column_unit"}));
  EXPECT_EQ(codes("what;page (mm);new (mm)\nBore;1;84\n"), (Codes{"limits.column_unit"}));
  EXPECT_EQ(codes("new (mm)\n84\n"), (Codes{"limits.no_column"}));
  EXPECT_EQ(codes("what;new (mm)\n"), (Codes{"limits.no_rows"}));
}

TEST(SheetTable, NamesOfRowsAndThings) {
  EXPECT_EQ(codes("id;what;new (mm)\na;Bore;84\na;Pin;20\n"), (Codes{"limits.row_twice"}));
  EXPECT_EQ(codes("what;kind;new (mm)\nBore;cylinder-boar;84\n"), (Codes{"limits.unknown_kind"}));
  EXPECT_EQ(codes("what;definition;new (mm)\nBore;size-99;84\n"), (Codes{"limits.unknown_definition_here"}));
  EXPECT_EQ(codes("id;what;new (mm);from\na;Play;.03;hole - pin\n"), (Codes{"limits.from_unknown", "limits.from_unknown"}));
  EXPECT_EQ(codes("id;what;new (mm);from\na;Play;.03;hole - \n"), (Codes{"limits.from_unreadable"}));
}

TEST(SheetTable, WhatCannotBeReckonedIsRefused) {
  const std::string rows = "id;what;new;from\na;A;1.0 mm;\nt;T;5 N·m;\nz;Z;0 mm;\n";
  for (const char* each : {"6 mm;a + t", "3 : 1;a / z", "9.0 mm;a / 0", "6.0 mm;a x a", "6.0 mm;a + 1"}) EXPECT_EQ(codes(rows + "b;B;" + each + "\n"), (Codes{"limits.from_not_alike"})) << each;
  EXPECT_EQ(codes("id;what;new (mm);from\nc;C;7.0;c\n"), (Codes{"limits.from_itself"}));
  EXPECT_EQ(codes("id;what;new (mm);from\nd;D;3.0;2 x e\ne;E;5.0;2 x d\n"), (Codes{"limits.from_itself", "limits.from_itself"}));
}

TEST(SheetTable, BlankRowsOfASpreadsheetAreNoRows) {
  const auto sheet = read("what;new (mm);wear (mm)\n;;\nBore;84.0;N/A\n;;\n");
  ASSERT_TRUE(sheet.ok());
  EXPECT_EQ(sheet.value().rows.size(), 1U);
}

TEST(SheetTable, OneFigureIsGivenOnce) {
  EXPECT_EQ(codes("what;new (mm);new min (mm)\nBore;84-85;84\n"), (Codes{"limits.range_twice"}));
  EXPECT_EQ(codes("what;wear (mm)\nBore;84-85\n"), (Codes{"limits.range_here"}));
}

TEST(SheetTable, ThousandsMarksAreRefused) {
  EXPECT_EQ(codes("what;new (mm)\nBore;1.084,020\n"), (Codes{"entry.thousands"}));
  EXPECT_NE(codes("what;new (N·m)\nBolt;1,250\nOther;12.5\n"), (Codes{"read"})) << "12.5 says that the point is the decimal mark, and 1,250 may be either";
  EXPECT_EQ(codes("what;new (N)\nSpring;1,250\nOther;1,400\n"), (Codes{"limits.cell_ambiguous", "limits.cell_ambiguous"})) << "newtons or thousands of them: nothing says";
  EXPECT_EQ(codes("what;new (N)\nSpring;1,250\nOther;1,40\n"), (Codes{"read"})) << "two places are no thousands";
  EXPECT_EQ(codes("what;new (mm)\nShell;1,486\nBore;84,020\n"), (Codes{"read"})) << "no bore is of 84 m";
}

}  // namespace
}  // namespace fettle
