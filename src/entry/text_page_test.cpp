#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "entry/typed_quantity.h"
#include "text/sentence.h"

namespace fettle {
namespace {

enum class Table { none, read_as, says, units };

struct PageRow {
  Table table;
  std::vector<std::string> cells;
};

std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells;
  std::istringstream in(line.substr(1));
  for (std::string cell; std::getline(in, cell, '|');) {
    const auto first = cell.find_first_not_of(' ');
    cells.push_back(first == std::string::npos ? "" : cell.substr(first, cell.find_last_not_of(' ') - first + 1));
  }
  return cells;
}

Table table_with(const std::string& head) {
  if (head.ends_with("Read as |")) return Table::read_as;
  if (head.ends_with("Fettle says |")) return Table::says;
  return head.ends_with("also typed |") ? Table::units : Table::none;
}

/// The rows of all tables of docs/TEXT.md.
std::vector<PageRow> page_rows() {
  std::ifstream file(std::string(FETTLE_SOURCE_DIR) + "/docs/TEXT.md");
  EXPECT_TRUE(file.good());
  std::vector<PageRow> rows;
  Table table = Table::none;
  for (std::string line; std::getline(file, line);) {
    if (!line.starts_with("|")) {
      table = Table::none;
    } else if (table == Table::none) {
      table = table_with(line);
      EXPECT_NE(table, Table::none) << line;
    } else if (!line.starts_with("|---")) {
      rows.push_back({table, cells_of(line)});
    }
  }
  return rows;
}

std::string without_ticks(const std::string& cell) {
  return cell.size() >= 2 && cell.front() == '`' && cell.back() == '`' ? cell.substr(1, cell.size() - 2) : cell;
}

/// The options of `fettle understand`, as the page writes them.
TypingContext context_of(const std::string& options) {
  TypingContext context{{}, {}, {}, {}, false, {}};
  std::istringstream words(without_ticks(options));
  for (std::string option, value; words >> option;) {
    if (option == "--dial") {
      context.on_a_dial = true;
      continue;
    }
    words >> value;
    if (option == "--unit") {
      context.unit = find_unit(value)->id;
      context.dimension = find_unit(value)->dimension;
    } else if (option == "--decimal-mark") {
      context.decimal_mark = value == "comma" ? DecimalMark::comma : DecimalMark::point;
    } else if (option == "--trade-words") {
      context.trade_words = value == "inch" ? TradeWords::inch : TradeWords::metric;
    } else if (option == "--plus-means") {
      context.plus_means = value == "clockwise" ? NeedleSide::clockwise : NeedleSide::anticlockwise;
    } else {
      ADD_FAILURE() << option;
    }
  }
  return context;
}

void check_read_as(const PageRow& row) {
  const std::string typed = without_ticks(row.cells[0]);
  const auto read = read_quantity(typed, context_of(row.cells[1]), {});
  ASSERT_TRUE(read.ok()) << typed << ": " << sentence(read.problems().front(), Language::english);
  // The clear form needs nothing known but the point.
  const auto clear = read_quantity(without_ticks(row.cells[2]), {{}, {}, DecimalMark::point, {}, false, {}}, {});
  ASSERT_TRUE(clear.ok()) << row.cells[2];
  EXPECT_EQ(read.value().quantity.dimension(), clear.value().quantity.dimension()) << typed;
  EXPECT_EQ(read.value().quantity.in_base(), clear.value().quantity.in_base()) << typed;
  EXPECT_EQ(read.value().side, clear.value().side) << typed;
}

void check_says(const PageRow& row) {
  const std::string typed = without_ticks(row.cells[0]);
  const auto read = read_quantity(typed, context_of(row.cells[1]), {});
  ASSERT_FALSE(read.ok()) << typed;
  const std::string said = what_and_do(read.problems().front(), Language::english);
  EXPECT_TRUE(said.starts_with(row.cells[2] + " ")) << typed << ": " << said;
}

/// Every unit of a row is known, and of the row's kind.
void check_units(const PageRow& row, std::string& kind, std::vector<const Unit*>& seen) {
  if (!row.cells[0].empty()) kind = row.cells[0];
  for (const std::string& cell : {row.cells[1], row.cells[2]}) {
    for (std::size_t from = 0; from <= cell.size();) {
      const auto comma = std::min(cell.find(", ", from), cell.size());
      const Unit* unit = find_unit(cell.substr(from, comma - from));
      ASSERT_NE(unit, nullptr) << cell.substr(from, comma - from);
      EXPECT_EQ(word_for("dimension." + std::string(dimension_name(unit->dimension)), Language::english), kind) << unit->symbol;
      seen.push_back(unit);
      from = comma + 2;
    }
  }
}

TEST(TextPage, EveryRowIsTrue) {
  std::string kind;
  std::vector<const Unit*> units;
  int checked = 0;
  for (const PageRow& row : page_rows()) {
    ASSERT_EQ(row.cells.size(), 3U) << row.cells[0];
    ++checked;
    switch (row.table) {
      case Table::none: break;
      case Table::read_as: check_read_as(row); break;
      case Table::says: check_says(row); break;
      case Table::units: check_units(row, kind, units); break;
    }
  }
  EXPECT_GT(checked, 80);
  for (const Unit& unit : all_units()) {
    EXPECT_NE(std::find(units.begin(), units.end(), &unit), units.end()) << unit.symbol << " is missing on the page";
  }
}

}  // namespace
}  // namespace fettle
