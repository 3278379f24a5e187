#include "limits/sheet_draft.h"

#include <algorithm>
#include <map>
#include <set>

#include "catalogue/kind_definitions.h"
#include "limits/cell_understood.h"
#include "limits/sheet_checks.h"
#include "limits/sheet_expression.h"

namespace fettle {
namespace {

std::string without_blanks_around(const std::string& text) {
  constexpr const char* kBlanks = " \t\r\n";
  const auto from = text.find_first_not_of(kBlanks);
  return from == std::string::npos ? "" : text.substr(from, text.find_last_not_of(kBlanks) - from + 1);
}

bool is_digit_byte(char byte) { return byte >= '0' && byte <= '9'; }

/// The mark of the first figure that has one; a sheet has one.
std::optional<DecimalMark> first_mark(const SheetDraft& draft) {
  for (const SheetDraftRow& row : draft.rows) {
    for (const auto& [column, text] : row.cells) {
      if (!column_has_figures(column)) continue;
      for (std::size_t at = 0; at + 1 < text.size(); ++at) {
        if (!is_digit_byte(text[at + 1]) || (at > 0 && text[at - 1] == '.')) continue;
        if (text[at] == '.') return DecimalMark::point;
        if (text[at] == ',') return DecimalMark::comma;
      }
    }
  }
  return std::nullopt;
}

/// Columns whose figures are lengths, if nothing else is said.
bool is_length_column(SheetColumn column) { return column_has_figures(column) && column != SheetColumn::stages && column != SheetColumn::quantity; }

/// Whether figures of this row are lengths, as far as kind, characteristic and definition tell: a page in mm prints a spring's load in N.
bool figures_are_lengths(const SheetRow& row, const Catalogue& known) {
  const auto length = [](const Definition& each) { return typed_dimension(each.dimension) == Dimension::length; };
  if (const Definition* definition = known.definition(row.definition)) return length(*definition);
  const Kind* kind = known.kind(row.kind);
  if (kind == nullptr) return true;
  std::size_t all = 0;
  std::size_t lengths = 0;
  for (const Definition* each : definitions_for(*kind, known.definitions).usual) {
    if (row.characteristic && each->family != *row.characteristic) continue;
    ++all;
    lengths += length(*each) ? 1U : 0U;
  }
  return all == 0 || lengths > 0;
}

SheetColumn column_of_problem(const Problem& problem) {
  if (problem.code == "limits.unknown_kind") return SheetColumn::kind;
  if (problem.code.starts_with("limits.from_")) return SheetColumn::from;
  return problem.code == "limits.row_twice" ? SheetColumn::id : SheetColumn::definition;
}
/// sheet_problems says these of the row as a whole.
bool is_of_row(const Problem& problem) { return problem.code == "limits.row_empty"; }

class DraftReader {
 public:
  DraftReader(const SheetDraft& draft, const Catalogue& known) : draft_(draft), known_(known), mark_(first_mark(draft)) {}

  SheetDraftRead run() {
    out_.sheet.book = without_blanks_around(draft_.book);
    out_.sheet.edition = without_blanks_around(draft_.edition);
    out_.sheet.original = draft_.original;
    if (out_.sheet.book.empty()) out_.problems.push_back({"limits.book_missing", {}, {}});
    if (draft_.rows.size() > kMostDraftRows) {
      out_.problems.push_back({"limits.too_many_rows", {}, {count("most", static_cast<std::int64_t>(kMostDraftRows))}});
      return std::move(out_);
    }
    for (std::size_t i = 0; i < draft_.rows.size(); ++i) read_row(i);
    check_ids_of_draft();
    leave_out_what_does_not_fit();
    bool any = false;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      any = any || !out_.rows[i].name.empty();
      if (!out_.rows[i].readable) continue;
      if (!out_.rows[i].waits.empty()) rows_[i].from.clear();
      out_.sheet.rows.push_back(rows_[i]);
    }
    if (!any) out_.problems.push_back({"limits.no_rows", {}, {}});
    if (pageless_) out_.problems.push_back({"limits.page_missing", {}, {}});
    decisions();
    return std::move(out_);
  }

 private:
  Place place(std::size_t row, std::optional<std::size_t> column = {}) const {
    return {"sheet", static_cast<int>(row + 1), column ? std::optional(static_cast<int>(*column + 1)) : std::nullopt};
  }

  void read_row(std::size_t at) {
    const SheetDraftRow& typed = draft_.rows[at];
    DraftRowRead read{typed.id, "", false, {}, {}, {}};
    SheetRow row{};
    row.place = place(at);
    bool blank = true;
    bool sound = true;
    // Words first: they tell whether the figures are lengths.
    for (const bool figures : {false, true}) {
      for (std::size_t i = 0; i < typed.cells.size(); ++i) {
        const auto& [column, text] = typed.cells[i];
        if (column_has_figures(column) != figures) continue;
        DraftCellRead cell = read_cell(row, column, without_blanks_around(text), place(at, i));
        blank = blank && without_blanks_around(text).empty();
        sound = sound && cell.problems.empty();
        read.cells.push_back(std::move(cell));
      }
    }
    if (!blank) {
      if (row.page.empty()) row.page = without_blanks_around(draft_.page);
      pageless_ = pageless_ || row.page.empty();
      if (row.what.empty()) {
        read.problems.push_back({"limits.row_unnamed", row.place, {}});
      } else if (sound && !says_something(row)) {
        read.problems.push_back({"limits.row_empty", row.place, {verbatim("what", row.what)}});
      }
      if (row.id.empty()) row.id = ids_.id_for(row);
      read.name = row.id;
      read.readable = sound && read.problems.empty();
    }
    rows_.push_back(std::move(row));
    out_.rows.push_back(std::move(read));
  }

  DraftCellRead read_cell(SheetRow& row, SheetColumn column, const std::string& text, const Place& at) {
    DraftCellRead out{column, {}, {}};
    SheetRow alone{};
    alone.place = at;
    read_sheet_cell(alone, column, text, context(row, column, text), at, out.problems);
    if (out.problems.empty()) {
      out.understood = cell_understood(alone, column);
      read_sheet_cell(row, column, text, context(row, column, text), at, out.problems);
    }
    for (Problem& each : out.problems) said_of_a_page(each, row, column, text);
    return out;
  }

  [[nodiscard]] CellContext context(const SheetRow& row, SheetColumn column, const std::string& text) const {
    CellContext out{{}, mark_};
    const bool of_page = is_length_column(column) && (column == SheetColumn::per || figures_are_lengths(row, known_));
    if (!of_page || !draft_.unit) return out;
    switch (*draft_.unit) {
      case PageUnit::millimetre: out.units = {UnitId::millimetre}; break;
      case PageUnit::inch: out.units = {UnitId::inch}; break;
      // Only the place in the cell tells which is which.
      case PageUnit::both:
        if (text.find('(') != std::string::npos) out.units = {UnitId::millimetre, UnitId::inch};
        break;
    }
    return out;
  }

  /// What a column of a table would be told, told of a page.
  // raises: limits.which_unit limits.unit_waits limits.which_of_both
  void said_of_a_page(Problem& problem, const SheetRow& row, SheetColumn column, const std::string& text) {
    if (problem.code != "entry.no_unit" || !is_length_column(column) || !figures_are_lengths(row, known_)) return;
    const char* code = draft_.unit ? "limits.which_of_both" : asked_ ? "limits.unit_waits" : "limits.which_unit";
    if (!draft_.unit) asked_ = true;
    problem = {code, problem.place, {verbatim("text", text)}};
  }

  void check_ids_of_draft() {
    std::set<std::string> seen;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (seen.insert(out_.rows[i].draft).second) continue;
      out_.rows[i].problems.push_back({"limits.row_twice", place(i), {verbatim("id", out_.rows[i].draft)}});
      out_.rows[i].readable = false;
    }
  }

  /// Rows that are faults of the sheet go out one after the other, each told once; what hangs on them waits.
  void leave_out_what_does_not_fit() {
    for (bool again = true; again;) {
      again = false;
      find_waiting();
      LimitSheet sheet;
      for (std::size_t i = 0; i < rows_.size(); ++i) {
        if (!out_.rows[i].readable) continue;
        sheet.rows.push_back(rows_[i]);
        if (!out_.rows[i].waits.empty()) sheet.rows.back().from.clear();
      }
      if (sheet.rows.empty()) return;
      for (Problem& each : sheet_problems(sheet, "sheet", known_)) {
        again = true;
        DraftRowRead& row = out_.rows[static_cast<std::size_t>(*each.place.line) - 1];
        row.readable = false;
        if (is_of_row(each)) {
          row.problems.push_back(std::move(each));
        } else {
          add_to_cell(row, std::move(each));
        }
      }
    }
  }

  static void add_to_cell(DraftRowRead& row, Problem problem) {
    const SheetColumn column = column_of_problem(problem);
    const auto found = std::find_if(row.cells.begin(), row.cells.end(), [&](const DraftCellRead& each) { return each.column == column; });
    // A name that the program gave stands in no cell.
    if (found == row.cells.end()) return row.problems.push_back(std::move(problem));
    found->problems.push_back(std::move(problem));
  }

  void find_waiting() {
    std::set<std::string> there;
    std::set<std::string> waiting;
    for (const DraftRowRead& each : out_.rows) (each.readable ? there : waiting).insert(each.name);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (!out_.rows[i].readable || rows_[i].from.empty()) continue;
      const auto expression = read_sheet_expression(rows_[i].from, rows_[i].place);
      if (!expression.ok()) continue;
      out_.rows[i].waits.clear();
      for (const std::string& name : expression.value().names()) {
        if (!there.contains(name) && waiting.contains(name)) out_.rows[i].waits.push_back(name);
      }
    }
  }

  void decisions() {
    std::map<std::string, std::string> names;
    for (const DraftRowRead& each : out_.rows) names.emplace(each.draft, each.name);
    for (SheetDecision each : draft_.decisions) {
      const auto found = names.find(each.row);
      if (found != names.end() && !found->second.empty()) each.row = found->second;
      out_.sheet.decisions.push_back(std::move(each));
    }
  }

  const SheetDraft& draft_;
  const Catalogue& known_;
  std::optional<DecimalMark> mark_;
  bool asked_ = false;
  bool pageless_ = false;
  RowIds ids_;
  std::vector<SheetRow> rows_;  ///< by rows of the draft
  SheetDraftRead out_;
};

}  // namespace

bool SheetDraftRead::whole() const {
  const auto sound = [](const DraftRowRead& row) {
    return row.problems.empty() && row.waits.empty() && std::all_of(row.cells.begin(), row.cells.end(), [](const DraftCellRead& cell) { return cell.problems.empty(); });
  };
  return problems.empty() && std::all_of(rows.begin(), rows.end(), sound);
}

const DraftRowRead* SheetDraftRead::named(std::string_view name) const {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const DraftRowRead& each) { return each.readable && each.name == name; });
  return found == rows.end() ? nullptr : &*found;
}

SheetDraftRead read_sheet_draft(const SheetDraft& draft, const Catalogue& known) { return DraftReader(draft, known).run(); }

SheetDraft draft_of(const LimitSheet& sheet) {
  SheetDraft out{sheet.book, sheet.edition, "", sheet.original, {}, {}, sheet.decisions};
  const bool one_page = !sheet.rows.empty() && std::all_of(sheet.rows.begin(), sheet.rows.end(), [&](const SheetRow& row) { return row.page == sheet.rows.front().page; });
  if (one_page) out.page = sheet.rows.front().page;
  for (const SheetRow& row : sheet.rows) {
    SheetDraftRow typed{row.id, sheet_cells(row)};
    if (one_page) std::erase_if(typed.cells, [](const auto& cell) { return cell.first == SheetColumn::page; });
    out.rows.push_back(std::move(typed));
  }
  return out;
}

}  // namespace fettle
