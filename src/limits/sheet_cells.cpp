#include "limits/sheet_cells.h"

#include <algorithm>

#include "base/joined.h"
#include "entry/characters.h"
#include "limits/sheet_fit.h"

namespace fettle {
namespace {

constexpr std::array<std::pair<SheetColumn, std::string_view>, kSheetColumns> kNames{{
    {SheetColumn::id, "id"},               {SheetColumn::what, "what"},       {SheetColumn::kind, "kind"},         {SheetColumn::characteristic, "characteristic"},
    {SheetColumn::definition, "definition"}, {SheetColumn::page, "page"},       {SheetColumn::step, "step"},         {SheetColumn::grade, "grade"},
    {SheetColumn::fresh, "new"},           {SheetColumn::fresh_min, "new-min"}, {SheetColumn::fresh_max, "new-max"}, {SheetColumn::wear, "wear"},
    {SheetColumn::per, "per"},             {SheetColumn::standard, "standard"}, {SheetColumn::fit, "fit"},           {SheetColumn::stages, "stages"},
    {SheetColumn::sequence, "sequence"},   {SheetColumn::quantity, "quantity"}, {SheetColumn::once, "once"},         {SheetColumn::from, "from"},
    {SheetColumn::choose, "choose"},       {SheetColumn::note, "note"},
}};

constexpr std::array kWithFigures{SheetColumn::step,     SheetColumn::fresh,  SheetColumn::fresh_min, SheetColumn::fresh_max, SheetColumn::wear, SheetColumn::per,
                                  SheetColumn::standard, SheetColumn::stages, SheetColumn::quantity};

constexpr std::array<std::pair<std::string_view, bool>, 8> kTruths{
    {{"yes", true}, {"ja", true}, {"x", true}, {"true", true}, {"no", false}, {"nein", false}, {"false", false}, {"0", false}}};

constexpr std::array kCharacteristics{Family::size, Family::out_of_round, Family::taper, Family::shape, Family::wear, Family::clearance, Family::figure};

bool says_nothing(const std::string& text) {
  return text.empty() || text == "-" || text == "–" || text == "—" || ascii_lower(text) == "n/a" || ascii_lower(text) == "std";
}

/// "30 N·m; 60 N·m; 90°", or with " + " or " then " between.
std::vector<std::string> stage_texts(std::string text) {
  for (const std::string_view between : {" + ", " then ", " dann ", ", then ", ", dann "}) {
    for (auto at = text.find(between); at != std::string::npos; at = text.find(between)) text.replace(at, between.size(), ";");
  }
  std::vector<std::string> out{""};
  for (const char each : text) {
    if (each == ';') {
      out.emplace_back();
    } else {
      out.back() += each;
    }
  }
  std::erase_if(out, [](const std::string& each) { return each.find_first_not_of(" +") == std::string::npos; });
  for (std::string& each : out) each.erase(0, each.find_first_not_of(" +"));
  return out;
}

class SheetCell {
 public:
  SheetCell(SheetRow& row, const std::string& text, const CellContext& context, const Place& place, Problems& problems)
      : row_(row), text_(text), context_(context), place_(place), problems_(problems) {}

  void read(SheetColumn column) {
    switch (column) {
      case SheetColumn::id: return join(row_.id);
      case SheetColumn::what: return join(row_.what);
      case SheetColumn::kind: return join(row_.kind);
      case SheetColumn::characteristic: return characteristic();
      case SheetColumn::definition: return join(row_.definition);
      case SheetColumn::page: return join(row_.page);
      case SheetColumn::step: return single(row_.step);
      case SheetColumn::grade: return join(row_.grade);
      case SheetColumn::fresh: return range();
      case SheetColumn::fresh_min: return single(row_.fresh.from);
      case SheetColumn::fresh_max: return single(row_.fresh.to);
      case SheetColumn::wear: return wear();
      case SheetColumn::per: return single(row_.per);
      case SheetColumn::standard: return single(row_.standard);
      case SheetColumn::fit: return fit();
      case SheetColumn::stages: return stages();
      case SheetColumn::sequence: return join(row_.sequence);
      case SheetColumn::quantity: return quantity();
      case SheetColumn::once: return once();
      case SheetColumn::from: return join(row_.from);
      case SheetColumn::choose: return join(row_.choose);
      case SheetColumn::note: return join(row_.note);
    }
  }

 private:
  void add(const char* code, std::vector<Argument> more = {}) {
    more.insert(more.begin(), verbatim("text", text_));
    problems_.push_back({code, place_, std::move(more)});
  }
  void join(std::string& into) { into += (into.empty() ? "" : " ") + text_; }

  void characteristic() {
    for (const Family each : kCharacteristics) {
      if (family_name(each) == ascii_lower(text_)) row_.characteristic = each;
    }
    if (row_.characteristic) return;
    std::vector<std::string> known;
    for (const Family each : kCharacteristics) known.emplace_back(family_name(each));
    add("limits.characteristic_unknown", {verbatim("known", joined(known))});
  }

  std::optional<PrintedCell> printed(const std::string& text, const CellContext& context) {
    auto cell = take(read_printed(text, context, place_), problems_);
    if (cell && !cell->marks.empty()) row_.note += (row_.note.empty() ? "" : " ") + cell->marks;
    return cell;
  }
  void range() {
    const auto cell = printed(text_, context_);
    if (!cell) return;
    merge(row_.fresh.from, cell->range.from);
    merge(row_.fresh.to, cell->range.to);
  }
  void single(Printed& into) {
    if (const auto cell = printed(text_, context_)) merge(into, one_of(*cell));
  }
  /// "max. 84.1" is one figure, and says its side.
  void wear() {
    const auto cell = printed(text_, context_);
    if (!cell) return;
    if (!cell->range.from.empty() && !cell->range.to.empty()) return merge(row_.wear, one_of(*cell));
    const bool at_most = cell->range.from.empty();
    const LimitSide side = at_most ? LimitSide::at_most : LimitSide::at_least;
    if (row_.worn.value_or(side) != side) add("limits.wear_two_sides");
    row_.worn = side;
    merge(row_.wear, at_most ? cell->range.to : cell->range.from);
  }
  /// A bare figure is how many.
  void quantity() {
    CellContext context = context_;
    const bool bare = text_.find_first_not_of("0123456789., ") == std::string::npos;
    if (context.units.empty() && bare) context.units = {UnitId::piece};
    if (const auto cell = printed(text_, context)) merge(row_.quantity, one_of(*cell));
  }
  Printed one_of(const PrintedCell& cell) {
    if (!(cell.range.from == cell.range.to)) add("limits.range_here");
    return cell.range.from;
  }
  void merge(Printed& into, const Printed& more) {
    for (const UnitFamily family : kUnitFamilies) {
      if (!more.in(family)) continue;
      if (into.in(family)) return problems_.push_back({"limits.range_twice", place_, {verbatim("text", more.in(family)->text)}});
      into.in(family) = more.in(family);
    }
  }

  void stages() {
    for (const std::string& each : stage_texts(text_)) {
      const auto cell = printed(each, context_);
      if (!cell) continue;
      if (cell->range.from.empty() || cell->range.to.empty()) add("limits.stage_open", {verbatim("stage", each)});
      row_.stages.push_back(cell->range);
    }
  }

  void fit() {
    join(row_.fit);
    const auto read = read_sheet_fit(row_.fit, place_);
    if (!read.ok()) problems_.insert(problems_.end(), read.problems().begin(), read.problems().end());
  }

  void once() {
    const auto found = std::find_if(kTruths.begin(), kTruths.end(), [&](const auto& each) { return each.first == ascii_lower(text_); });
    if (found == kTruths.end()) return add("limits.once_unknown");
    row_.once = found->second;
  }

  SheetRow& row_;
  const std::string& text_;
  const CellContext& context_;
  const Place& place_;
  Problems& problems_;
};

std::string side_text(const PrintedRange& range, UnitFamily family) {
  const auto& from = range.from.in(family);
  const auto& to = range.to.in(family);
  if (from && to) return *from == *to ? figure_with_unit(*from) : figure_with_unit(*from) + " to " + figure_with_unit(*to);
  return from ? "over " + figure_with_unit(*from) : to ? "up to " + figure_with_unit(*to) : "";
}

std::string range_text(const PrintedRange& range) {
  const std::string metric = side_text(range, UnitFamily::metric);
  const std::string inch = side_text(range, UnitFamily::inch);
  return metric.empty() ? inch : inch.empty() ? metric : metric + " (" + inch + ")";
}
std::string single_text(const Printed& figure) { return range_text({figure, figure}); }

std::string quantity_text(const Printed& quantity) {
  const TypedQuantity* figure = quantity.preferring(UnitFamily::metric);
  return figure != nullptr && figure->quantity.dimension() == Dimension::count ? digits_of(*figure) : single_text(quantity);
}

}  // namespace

std::string cell_text(const SheetRow& row, SheetColumn column) {
  switch (column) {
    case SheetColumn::id: return row.id;
    case SheetColumn::what: return row.what;
    case SheetColumn::kind: return row.kind;
    case SheetColumn::characteristic: return row.characteristic ? std::string(family_name(*row.characteristic)) : "";
    case SheetColumn::definition: return row.definition;
    case SheetColumn::page: return row.page;
    case SheetColumn::step: return single_text(row.step);
    case SheetColumn::grade: return row.grade;
    case SheetColumn::fresh: return range_text(row.fresh);
    case SheetColumn::fresh_min:
    case SheetColumn::fresh_max: return "";  // both stand in `fresh`
    case SheetColumn::wear: return range_text(wear_range(row));
    case SheetColumn::per: return single_text(row.per);
    case SheetColumn::standard: return single_text(row.standard);
    case SheetColumn::fit: return row.fit;
    case SheetColumn::stages: {
      std::vector<std::string> out;
      for (const PrintedRange& each : row.stages) out.push_back(range_text(each));
      return joined(out, " then ");
    }
    case SheetColumn::sequence: return row.sequence;
    case SheetColumn::quantity: return quantity_text(row.quantity);
    case SheetColumn::once: return row.once ? "yes" : "";
    case SheetColumn::from: return row.from;
    case SheetColumn::choose: return row.choose;
    case SheetColumn::note: return row.note;
  }
  return "";
}

PrintedRange wear_range(const SheetRow& row) {
  return {row.worn == LimitSide::at_most ? Printed{} : row.wear, row.worn == LimitSide::at_least ? Printed{} : row.wear};
}

std::string figure_with_unit(const TypedQuantity& figure) {
  const std::string unit(unit_definition(figure.quantity.unit).symbol);
  if (figure.quantity.dimension() == Dimension::count) return digits_of(figure) + " : 1";
  return digits_of(figure) + " " + unit;
}

std::string_view column_name(SheetColumn column) { return kNames[static_cast<std::size_t>(column)].second; }

std::optional<SheetColumn> column_named(std::string_view name) {
  const auto found = std::find_if(kNames.begin(), kNames.end(), [&](const auto& each) { return each.second == name; });
  return found == kNames.end() ? std::nullopt : std::optional(found->first);
}

bool column_has_figures(SheetColumn column) { return std::find(kWithFigures.begin(), kWithFigures.end(), column) != kWithFigures.end(); }

void read_sheet_cell(SheetRow& row, SheetColumn column, const std::string& text, const CellContext& context, const Place& place, Problems& problems) {
  if (!says_nothing(text)) SheetCell(row, text, context, place, problems).read(column);
}

bool says_something(const SheetRow& row) {
  return !row.fresh.empty() || !row.wear.empty() || !row.fit.empty() || !row.stages.empty() || !row.sequence.empty() || !row.quantity.empty() || row.once;
}

std::vector<std::pair<SheetColumn, std::string>> sheet_cells(const SheetRow& row) {
  std::vector<std::pair<SheetColumn, std::string>> out;
  for (const auto& [column, name] : kNames) {
    if (std::string text = cell_text(row, column); !text.empty()) out.emplace_back(column, std::move(text));
  }
  return out;
}

}  // namespace fettle
