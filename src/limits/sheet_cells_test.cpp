#include "limits/sheet_cells.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

struct ReadRow {
  SheetRow row;
  Problems problems;
};
ReadRow read(const std::vector<std::pair<SheetColumn, std::string>>& cells, std::vector<UnitId> units = {}) {
  ReadRow out;
  for (const auto& [column, text] : cells) read_sheet_cell(out.row, column, text, {units, DecimalMark::point}, {"sheet", 3, 1}, out.problems);
  return out;
}
std::string code(SheetColumn column, const std::string& text) {
  const ReadRow out = read({{column, text}});
  return out.problems.empty() ? "" : out.problems.front().code;
}

TEST(SheetCells, EveryColumnHasANameThatFindsIt) {
  for (std::size_t i = 0; i < kSheetColumns; ++i) {
    const auto column = static_cast<SheetColumn>(i);
    EXPECT_EQ(column_named(column_name(column)), column);
  }
  EXPECT_FALSE(column_named("bore"));
}

TEST(SheetCells, StagesStandOneAfterTheOtherInBothUnits) {
  const ReadRow out = read({{SheetColumn::stages, "30-35 N·m (22-26 lbf·ft); 60 N·m then 90° + 90°"}});
  ASSERT_TRUE(out.problems.empty());
  ASSERT_EQ(out.row.stages.size(), 4U);
  EXPECT_EQ(out.row.stages[0].to.metric->text, "35 N·m");
  EXPECT_EQ(out.row.stages[0].from.inch->quantity.value, Ratio(22));
  EXPECT_EQ(out.row.stages[2].from, out.row.stages[3].from);
  EXPECT_EQ(out.row.stages[2].from.metric->quantity.dimension(), Dimension::angle);
}

TEST(SheetCells, ABareQuantityIsHowMany) {
  EXPECT_EQ(read({{SheetColumn::quantity, "10"}}).row.quantity.metric->quantity.dimension(), Dimension::count);
  EXPECT_EQ(read({{SheetColumn::quantity, "4.2 l"}}).row.quantity.metric->quantity.dimension(), Dimension::volume);
}

TEST(SheetCells, OnceIsSaidInWords) {
  EXPECT_TRUE(read({{SheetColumn::once, "Ja"}}).row.once);
  EXPECT_TRUE(read({{SheetColumn::once, "x"}}).row.once);
  EXPECT_FALSE(read({{SheetColumn::once, "no"}}).row.once);
  EXPECT_EQ(code(SheetColumn::once, "perhaps"), "limits.once_unknown");
}

TEST(SheetCells, WhatCannotBeToldIsRefused) {
  EXPECT_EQ(code(SheetColumn::characteristic, "length"), "limits.characteristic_unknown");
  EXPECT_EQ(code(SheetColumn::stages, "up to 30 N·m"), "limits.stage_open");
  EXPECT_EQ(code(SheetColumn::fit, "H7"), "limits.fit_no_size");
  EXPECT_EQ(code(SheetColumn::fit, "52"), "limits.fit_no_size");
  EXPECT_EQ(code(SheetColumn::fit, "52 Q7"), "limits.fit_letter");
  EXPECT_EQ(code(SheetColumn::wear, "1.0-1.2 mm"), "limits.range_here");
  EXPECT_EQ(read({{SheetColumn::wear, "max 0.10 mm"}, {SheetColumn::wear, "min .004 in"}}).problems.front().code, "limits.wear_two_sides");
  for (const char* each : {"up to 0.10 mm", "over 8.0 bar", "0.10 mm", "up to 0.10 mm (up to 0.004 in)"}) EXPECT_EQ(cell_text(read({{SheetColumn::wear, each}}).row, SheetColumn::wear), each);
}

TEST(SheetCells, AFitIsReadHoweverItIsSpaced) {
  for (const char* text : {"52 H7", "52H7", "52.0 mm H7", "52 H7/p6", "52 H7 / p6"}) EXPECT_EQ(code(SheetColumn::fit, text), "") << text;
}

TEST(SheetCells, WhatIsToBeTypedReadsAsTheRow) {
  const ReadRow out = read({{SheetColumn::what, "Head bolts, M10"}, {SheetColumn::page, "41"}, {SheetColumn::stages, "30 N·m (22 lbf·ft); 60-65 N·m; 90°"}, {SheetColumn::sequence, "5-3-1-2-4-6"}, {SheetColumn::quantity, "10"},
                            {SheetColumn::once, "yes"}, {SheetColumn::note, "oiled threads"}, {SheetColumn::fresh, "1.0 to 1.2 mm (0.039 to 0.047 in)"}, {SheetColumn::wear, "1.5 mm"}, {SheetColumn::characteristic, "taper"},
                            {SheetColumn::standard, "52 mm"}, {SheetColumn::fit, "52 H7"}, {SheetColumn::step, "2-1/32 in"}});
  ASSERT_TRUE(out.problems.empty());
  const ReadRow again = read(sheet_cells(out.row));
  EXPECT_TRUE(again.problems.empty());
  EXPECT_EQ(sheet_cells(again.row), sheet_cells(out.row));
  EXPECT_EQ(again.row.stages.size(), 3U);
  EXPECT_EQ(again.row.quantity, out.row.quantity);
  EXPECT_TRUE(again.row.once);
}

}  // namespace
}  // namespace fettle
