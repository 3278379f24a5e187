#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entry/typed_quantity.h"

namespace fettle {

/// text: what a person may have written, in any words. typed: a quantity as typed. word: an id of the program, a word of a fixed list.
/// decimal: a figure with a point. whole: a count.
enum class ColumnSort { text, typed, word, decimal, whole };

struct DataColumn {
  std::string name;  ///< holds the unit of its figures: size_mm
  ColumnSort sort;
};

/// A table for other programs. Nothing stands for what is not known.
struct DataTable {
  std::vector<DataColumn> columns;
  std::vector<std::vector<std::optional<std::string>>> rows;  ///< as many cells as columns
};

/// The table as RFC 4180 has it, for spreadsheets and programs of statistics: header row, CRLF, UTF-8. `mark` point: cells are separated by
/// commas; comma: by semicolons, and figures of decimal columns have a comma. A spreadsheet takes a cell that begins with = + - @ or a
/// control character for a formula, so that a note could reckon or call other programs: such a cell of a text column gets an apostrophe in
/// front. A typed quantity keeps its sign (+0,031): it is left alone if nothing in it could be a formula. The JSON form has every text
/// as it was.
[[nodiscard]] std::string data_table_text(const DataTable& table, DecimalMark mark);

}  // namespace fettle
