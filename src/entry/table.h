#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"

namespace fettle {

/// One cell: its text without quotes and outer blanks, and where its first character stands. The column counts characters; in a record
/// whose quoted cells hold line breaks it starts afresh on every line.
struct Cell {
  std::string text;
  int line;
  int column;
};

struct Row {
  int line;                 ///< where the row begins
  std::vector<Cell> cells;  ///< as many as the header has; cells that a short row lacks are empty
};

/// A table as any spreadsheet writes it (RFC 4180 in its dialects): separated by comma, semicolon or tab, found from the header
/// line; quotes, CR, LF or CRLF, byte-order mark; lines that begin with '#' and blank lines are skipped.
struct Table {
  std::string file;
  char separator;
  std::vector<std::string> header;
  std::vector<Row> rows;

  [[nodiscard]] std::optional<std::size_t> find_column(std::string_view name) const;
  [[nodiscard]] Place place(const Row& row, std::size_t column) const {
    return {file, row.cells[column].line, row.cells[column].column};
  }
};

/// Reads a whole table. Every problem is added: entry.table_not_utf8 (alone), .table_empty, .table_line_too_long (64 KiB),
/// .table_too_many_rows (200,000), .table_open_quote, .table_quote_inside, .table_too_many_cells, .table_column_twice,
/// .table_column_unnamed. Rows with a problem are left out of the table; without a sound header no row is read.
[[nodiscard]] Table read_table(std::string_view text, const std::string& file, Problems& problems);

}  // namespace fettle
