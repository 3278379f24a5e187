#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "limits/printed.h"

namespace fettle {

/// What is known of a cell before it is read.
struct CellContext {
  std::vector<UnitId> units;               ///< of the column, as its heading says: none, one, or one and the one in brackets behind it
  std::optional<DecimalMark> decimal_mark;
};

struct PrintedCell {
  PrintedRange range;
  std::string marks;  ///< footnote marks that stood at the figure
};

/// Reads a figure or a range as books print them: "1.0", "1.0-1.2", "1.0…1.2", "1.0 to 1.2", "1.1 ±0.1", "over 1.2", "up to 1.2", "< 1.2", "1.2 max", each with
/// a unit or in the column's, and the same in the other unit in brackets behind it: "55.600 mm (2.1890 in)". "9.014 : 1" has no unit. Footnote marks at the end are
/// taken off and kept. A single figure stands at both ends of the range. Problems: those of read_quantity (limits.cell_ambiguous, .cell_thousands and .cell_trade_word for what a
/// job states once), and limits.cell_two_metric (two
/// figures of one family of units), .cell_range (cannot be told apart), .cell_brackets.
[[nodiscard]] Result<PrintedCell> read_printed(std::string_view text, const CellContext& context, const Place& place);

}  // namespace fettle
