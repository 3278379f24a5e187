#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "limits/printed_cell.h"
#include "limits/sheet.h"

namespace fettle {

/// What a person types of a row, cell by cell: the columns of a table, the keys of a file, the fields of the page.
enum class SheetColumn {
  id, what, kind, characteristic, definition, page, step, grade, fresh, fresh_min, fresh_max, wear, per, standard, fit, stages, sequence, quantity, once, from,
  choose, note
};
inline constexpr std::size_t kSheetColumns = 22;

/// The key of it in a file: "new-min" of fresh_min.
[[nodiscard]] std::string_view column_name(SheetColumn column);
[[nodiscard]] std::optional<SheetColumn> column_named(std::string_view name);
/// Whether a unit may stand over the column.
[[nodiscard]] bool column_has_figures(SheetColumn column);

/// Takes what is typed in one cell into the row. An empty cell, "-", "n/a" and "std" say nothing. What stands in the row from another cell of the same column is
/// joined: words with a blank, figures where they are of the other family of units. Problems: those of read_printed and of read_iso_fit, and
/// limits.range_here, .range_twice, .wear_two_sides, .characteristic_unknown, .once_unknown, .fit_no_size, .stage_open.
void read_sheet_cell(SheetRow& row, SheetColumn column, const std::string& text, const CellContext& context, const Place& place, Problems& problems);

/// What stands in one column of the row; empty: nothing.
[[nodiscard]] std::string cell_text(const SheetRow& row, SheetColumn column);

/// The wear limit with its side, where the row says it: "max 84.1" has no lower end.
[[nodiscard]] PrintedRange wear_range(const SheetRow& row);

/// A figure as printed, always with its unit: "84.02 mm", "2-1/32 in", "9.014 : 1".
[[nodiscard]] std::string figure_with_unit(const TypedQuantity& figure);

/// Whether the row says anything that a person wants to keep.
[[nodiscard]] bool says_something(const SheetRow& row);

/// What to type for this row, column by column; a column that says nothing is left out. Reading it again gives the row, but for the place.
[[nodiscard]] std::vector<std::pair<SheetColumn, std::string>> sheet_cells(const SheetRow& row);

}  // namespace fettle
