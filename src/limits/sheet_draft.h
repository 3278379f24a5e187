#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "catalogue/catalogue.h"
#include "limits/sheet.h"
#include "limits/sheet_cells.h"

namespace fettle {

/// The unit in which a page prints its figures. both: the metric figure, and behind it the other in brackets.
enum class PageUnit { millimetre, inch, both };

/// So many rows of a page at most.
inline constexpr std::size_t kMostDraftRows = 200;

/// A row as somebody is typing it.
struct SheetDraftRow {
  std::string id;  ///< of the draft; it stays when the row is called otherwise
  std::vector<std::pair<SheetColumn, std::string>> cells;
};

/// One page of a book, as somebody is typing it: texts, whatever they say.
struct SheetDraft {
  std::string book;
  std::string edition;
  std::string page;                    ///< of every row that names none
  std::optional<UnitFamily> original;  ///< the unit in which the book was made
  std::optional<PageUnit> unit;        ///< nothing: not said; then a figure needs its own
  std::vector<SheetDraftRow> rows;
  std::vector<SheetDecision> decisions;  ///< `row` is the id of the draft
};

struct DraftCellRead {
  SheetColumn column;
  std::vector<Message> understood;  ///< what the text says; empty: nothing is understood, or there is nothing to understand
  Problems problems;
};

struct DraftRowRead {
  std::string draft;               ///< id in the draft
  std::string name;                ///< id in the sheet, by which other rows name it; empty: the row is blank
  bool readable;                   ///< it is a row of the sheet
  std::vector<DraftCellRead> cells;
  Problems problems;               ///< of the row as a whole
  std::vector<std::string> waits;  ///< rows that `from` names and that cannot be read yet; until then it is not reckoned
};

struct SheetDraftRead {
  LimitSheet sheet;  ///< of the rows that can be read; place.line is the number of the row in the draft, from 1
  std::vector<DraftRowRead> rows;
  Problems problems;  ///< of the sheet as a whole

  [[nodiscard]] bool whole() const;                                   ///< nothing is wrong anywhere
  [[nodiscard]] const DraftRowRead* named(std::string_view name) const;  ///< a row of the sheet
};

/// Reads what was typed so far, everything at once; a row that cannot be read is no fault of the others. The page's unit is that of lengths: a
/// torque, a force or a pressure has its own. All figures have the decimal mark of the first one that has one. Problems: those of read_sheet_cell and sheet_problems,
/// and limits.which_unit (the first figure without a unit, while the page's is not said), .unit_waits (the others), .which_of_both,
/// .row_unnamed, .row_twice, .too_many_rows, .book_missing, .page_missing.
[[nodiscard]] SheetDraftRead read_sheet_draft(const SheetDraft& draft, const Catalogue& known);

/// What to type for this sheet: reading it gives the same rows and decisions. The page is that of all rows, where they have one.
[[nodiscard]] SheetDraft draft_of(const LimitSheet& sheet);

}  // namespace fettle
