#include "limits/sheet_draft.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "limits/proof.h"
#include "limits/sheet_file.h"
#include "limits/sheet_table.h"
#include "text/sentence.h"

namespace fettle {
namespace {

using Cells = std::vector<std::pair<SheetColumn, std::string>>;

SheetDraft page_with(std::vector<Cells> rows, std::optional<PageUnit> unit = PageUnit::millimetre) {
  SheetDraft out{"Invented four", "2", "12", {}, unit, {}, {}};
  for (std::size_t i = 0; i < rows.size(); ++i) out.rows.push_back({"r" + std::to_string(i + 1), std::move(rows[i])});
  return out;
}
SheetDraftRead read(const SheetDraft& draft) { return read_sheet_draft(draft, catalogue()); }
const DraftCellRead& cell(const SheetDraftRead& read, std::size_t row, SheetColumn column) {
  for (const DraftCellRead& each : read.rows.at(row).cells) {
    if (each.column == column) return each;
  }
  ADD_FAILURE() << "no cell " << column_name(column);
  return read.rows.at(row).cells.at(0);
}
std::string understood(const SheetDraftRead& read, std::size_t row, SheetColumn column) {
  std::string out;
  for (const Message& each : cell(read, row, column).understood) out += (out.empty() ? "" : " = ") + sentence(each, Language::english);
  return out;
}
std::string code(const SheetDraftRead& read, std::size_t row, SheetColumn column) {
  const DraftCellRead& found = cell(read, row, column);
  return found.problems.empty() ? "" : found.problems.front().code;
}
std::string row_code(const SheetDraftRead& read, std::size_t row) { return read.rows.at(row).problems.empty() ? "" : read.rows.at(row).problems.front().code; }

using enum SheetColumn;

TEST(SheetDraft, EachCellSaysWhatWasUnderstood) {
  const SheetDraftRead out = read(page_with({{{what, "Cylinder bore"}, {kind, "cylinder-bore"}, {characteristic, "size"}, {fresh_min, "84.000"}, {fresh_max, "84.020"}, {wear, " 84.1 "}},
                                             {{what, "Head bolts"}, {stages, "30 N·m then 90°"}, {once, "x"}, {quantity, "10"}},
                                             {{what, "Gudgeon pin"}, {fit, "20 H6"}},
                                             {{what, "Ring gap"}, {fresh, "0.3-0.5"}, {note, "any words"}}}));
  EXPECT_TRUE(out.whole());
  ASSERT_EQ(out.sheet.rows.size(), 4U);
  EXPECT_EQ(understood(out, 0, fresh_min), "from 84.000 mm");
  EXPECT_EQ(understood(out, 0, fresh_max), "to 84.020 mm");
  EXPECT_EQ(understood(out, 0, wear), "84.1 mm");
  EXPECT_EQ(understood(out, 1, stages), "1. 30 N·m = 2. 90 °");
  EXPECT_EQ(understood(out, 1, once), "fitted once only");
  EXPECT_EQ(understood(out, 1, quantity), "10");
  EXPECT_EQ(understood(out, 2, fit), "hole 20.000 to 20.013 mm");  // ISO 286: 20 H6 is 0 / +13 µm
  EXPECT_EQ(understood(out, 3, fresh), "0.3 to 0.5 mm");
  EXPECT_EQ(understood(out, 3, note), "") << "words say what they say";
  EXPECT_EQ(out.sheet.rows[0].page, "12");
  EXPECT_EQ(out.sheet.rows[0].id, "cylinder-bore");
}

TEST(SheetDraft, BothUnitsStandInTheOrderOfThePage) {
  const SheetDraftRead out = read(page_with({{{what, "Bore"}, {fresh, "84.000-84.020 (3.3071-3.3079)"}}, {{what, "Pin"}, {wear, "19.980"}}, {{what, "Key"}, {wear, "0.25 in"}}}, PageUnit::both));
  EXPECT_EQ(understood(out, 0, fresh), "84.000 to 84.020 mm = 3.3071 to 3.3079 in");
  EXPECT_EQ(code(out, 1, wear), "limits.which_of_both") << "never a guess which of the two it is";
  EXPECT_EQ(understood(out, 2, wear), "0.25 in");
}

TEST(SheetDraft, TheUnitIsAskedOnceAndNeverTaken) {
  const SheetDraftRead out = read(page_with({{{what, "Bore"}, {fresh, "84.000"}, {wear, "84.1"}}, {{what, "Pin"}, {wear, "20"}}, {{what, "Key"}, {wear, "3 mm"}}}, std::nullopt));
  EXPECT_EQ(code(out, 0, fresh), "limits.which_unit");
  EXPECT_EQ(code(out, 0, wear), "limits.unit_waits");
  EXPECT_EQ(code(out, 1, wear), "limits.unit_waits");
  EXPECT_EQ(understood(out, 2, wear), "3 mm");
  ASSERT_EQ(out.sheet.rows.size(), 1U);
  EXPECT_EQ(out.sheet.rows[0].what, "Key");
}

TEST(SheetDraft, AHalfTypedRowIsNoFaultOfTheOthers) {
  const SheetDraftRead out = read(page_with({{{what, "Bore"}, {id, "hole"}, {fresh, "73.000-73.022"}},
                                             {{what, "Skirt"}, {id, "shaft"}, {fresh, "72.9x"}},
                                             {{what, "Play"}, {id, "play"}, {fresh, "0.038-0.075"}, {from, "hole - shaft"}},
                                             {{what, "Only a name"}},
                                             {{wear, "3"}},
                                             {},
                                             {{what, "Odd"}, {fresh, "1"}, {from, "hole - nothing"}}}));
  EXPECT_NE(code(out, 1, fresh), "");
  ASSERT_TRUE(out.rows[2].readable);
  EXPECT_EQ(out.rows[2].waits, std::vector<std::string>{"shaft"});
  EXPECT_EQ(row_code(out, 3), "limits.row_empty");
  EXPECT_EQ(row_code(out, 4), "limits.row_unnamed");
  EXPECT_EQ(out.rows[5].name, "") << "a blank row says nothing and is no trouble";
  EXPECT_EQ(row_code(out, 5), "");
  EXPECT_EQ(code(out, 6, from), "limits.from_unknown");
  ASSERT_EQ(out.sheet.rows.size(), 2U);
  EXPECT_EQ(out.sheet.rows[1].id, "play");
  EXPECT_TRUE(proof_read(out.sheet, catalogue()).empty());
  EXPECT_FALSE(out.whole());
}

TEST(SheetDraft, WhatTheSheetRefusesStandsAtItsCell) {
  const SheetDraftRead out = read(page_with({{{what, "A"}, {kind, "nonesuch"}, {wear, "1"}},
                                             {{what, "B"}, {kind, "cylinder-bore"}, {characteristic, "size"}, {definition, "oor-1"}, {wear, "1"}},
                                             {{what, "C"}, {id, "c"}, {wear, "1"}, {from, "d"}},
                                             {{what, "D"}, {id, "d"}, {wear, "1"}, {from, "c"}},
                                             {{what, "E"}, {id, "e"}, {wear, "1"}},
                                             {{what, "F"}, {id, "e"}, {wear, "1"}},
                                             {{what, "G"}, {definition, "none"}, {wear, "1-2"}}}));
  EXPECT_EQ(code(out, 0, kind), "limits.unknown_kind");
  EXPECT_EQ(code(out, 1, definition), "limits.characteristic_other");
  EXPECT_EQ(code(out, 2, from), "limits.from_itself");
  EXPECT_EQ(code(out, 3, from), "limits.from_itself");
  EXPECT_EQ(code(out, 4, id), "");
  EXPECT_EQ(code(out, 5, id), "limits.row_twice");
  EXPECT_EQ(code(out, 6, wear), "limits.range_here");
  ASSERT_EQ(out.sheet.rows.size(), 1U);
  EXPECT_EQ(out.sheet.rows[0].id, "e");
}

TEST(SheetDraft, OneDecimalMarkAndWhatGoesAgainstIt) {
  const SheetDraftRead out = read(page_with({{{what, "A"}, {wear, "1,486"}}, {{what, "B"}, {wear, "1,002"}}, {{what, "C"}, {wear, "1.486"}}}));
  EXPECT_EQ(understood(out, 1, wear), "1.002 mm");
  EXPECT_EQ(code(out, 2, wear), "limits.cell_thousands");
  EXPECT_EQ(code(out, 0, wear), "");
}

TEST(SheetDraft, ThePagesUnitIsOneOfLengths) {
  const SheetDraftRead out = read(page_with({{{what, "Head bolts"}, {stages, "30"}}}));
  EXPECT_EQ(code(out, 0, stages), "entry.no_unit") << "30 mm is no torque";
}

TEST(SheetDraft, WhatIsMissingOfTheWholeIsSaid) {
  SheetDraft draft = page_with({{{what, "A"}, {wear, "1"}}});
  draft.book = " ";
  draft.page = "";
  const SheetDraftRead out = read(draft);
  ASSERT_EQ(out.problems.size(), 2U);
  EXPECT_EQ(out.problems[0].code, "limits.book_missing");
  EXPECT_EQ(out.problems[1].code, "limits.page_missing");
  EXPECT_EQ(read(page_with({})).problems.at(0).code, "limits.no_rows");
  EXPECT_EQ(read(page_with(std::vector<Cells>(kMostDraftRows + 1))).problems.at(0).code, "limits.too_many_rows");
}

TEST(SheetDraft, DecisionsFollowTheRowWhateverItIsCalled) {
  SheetDraft draft = page_with({{{what, "Play"}, {wear, "0.0889 mm (.0025 in)"}}});
  draft.decisions.push_back({"units-disagree", "r1", "wear", "0.0889 mm = 0.0025 in", Decided::as_printed, "", "JB", "2026-01-05"});
  for (const char* name : {"", "gap"}) {
    if (*name != '\0') draft.rows[0].cells.emplace_back(id, name);
    const SheetDraftRead out = read(draft);
    const auto findings = proof_read(out.sheet, catalogue());
    ASSERT_EQ(findings.size(), 1U) << name;
    ASSERT_TRUE(findings[0].decided) << name;
    EXPECT_EQ(findings[0].decided->who, "JB");
  }
}

TEST(SheetDraft, TwoRowsOfOneIdAreTold) {
  SheetDraft draft = page_with({{{what, "A"}, {wear, "1"}}, {{what, "B"}, {wear, "1"}}});
  draft.rows[1].id = "r1";
  const SheetDraftRead out = read(draft);
  EXPECT_EQ(row_code(out, 1), "limits.row_twice");
  EXPECT_EQ(out.sheet.rows.size(), 1U);
}

/// Every sheet of the tests, as a person would type it.
TEST(SheetDraft, ReadsBackEverySheetOfTheTests) {
  namespace fs = std::filesystem;
  int sheets = 0;
  for (const char* folder : {"written", "right", "traps"}) {
    for (const auto& each : fs::directory_iterator(fs::path(FETTLE_SOURCE_DIR) / "tests/sheets" / folder)) {
      std::ifstream file(each.path(), std::ios::binary);
      std::ostringstream text;
      text << file.rdbuf();
      const std::string name = each.path().filename().string();
      const auto sheet = each.path().extension() == ".toml" ? read_sheet_file(text.str(), name, catalogue()) : read_sheet_table(text.str(), name, catalogue());
      ASSERT_TRUE(sheet.ok()) << name;
      const SheetDraftRead again = read(draft_of(sheet.value()));
      ASSERT_EQ(again.sheet.rows.size(), sheet.value().rows.size()) << name;
      for (std::size_t i = 0; i < again.sheet.rows.size(); ++i) {
        const SheetRow& was = sheet.value().rows[i];
        EXPECT_EQ(sheet_cells(again.sheet.rows[i]), sheet_cells(was)) << name << " " << was.id;
        for (const SheetField field : kSheetFields) {
          for (const UnitFamily family : kUnitFamilies) {
            const auto& before = figure(was, field).in(family);
            const auto& after = figure(again.sheet.rows[i], field).in(family);
            ASSERT_EQ(before.has_value(), after.has_value()) << name << " " << was.id << " " << field_name(field);
            if (before) {
              EXPECT_EQ(before->quantity, after->quantity) << name << " " << was.id << " " << field_name(field);
            }
          }
        }
      }
      EXPECT_EQ(again.sheet.decisions, sheet.value().decisions);
      ++sheets;
    }
  }
  EXPECT_GE(sheets, 30);
}

}  // namespace
}  // namespace fettle
