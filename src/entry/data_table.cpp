#include "entry/data_table.h"

#include <algorithm>

#include "base/assertion.h"
#include "entry/table_writer.h"

namespace fettle {
namespace {

bool begins_a_formula(const std::string& text) {
  return !text.empty() && std::string_view("=+-@\t\r\n").find(text.front()) != std::string_view::npos;
}

/// Figures, units and needle sides need none of these; names of functions, references and calls do.
bool is_plain_quantity(const std::string& text) { return text.find_first_of("=@(|!:$\t\r\n") == std::string::npos; }

std::string shown(const std::string& text, ColumnSort sort, DecimalMark mark) {
  std::string out = text;
  switch (sort) {
    case ColumnSort::text: return begins_a_formula(text) ? "'" + text : text;
    case ColumnSort::typed: return begins_a_formula(text) && !is_plain_quantity(text) ? "'" + text : text;
    case ColumnSort::decimal:
      if (mark == DecimalMark::comma) std::replace(out.begin(), out.end(), '.', ',');
      return out;
    case ColumnSort::word:
    case ColumnSort::whole: return out;
  }
  return out;
}

}  // namespace

std::string data_table_text(const DataTable& table, DecimalMark mark) {
  TableWriter writer(mark == DecimalMark::comma ? ';' : ',', "\r\n");
  std::vector<std::string> cells;
  for (const DataColumn& column : table.columns) cells.push_back(column.name);
  writer.row(cells);
  for (const auto& row : table.rows) {
    FETTLE_ASSERT(row.size() == table.columns.size(), std::to_string(row.size()));
    for (std::size_t c = 0; c < row.size(); ++c) cells[c] = row[c] ? shown(*row[c], table.columns[c].sort, mark) : std::string();
    writer.row(cells);
  }
  return writer.text();
}

}  // namespace fettle
