#include "limits/proof.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/joined.h"
#include "limits/printed_cell.h"
#include "limits/proof_desk.h"
#include "limits/sheet_cells.h"

namespace fettle {
namespace {

using Rule = void (*)(ProofDesk&);
/// Each asks about what none before it has asked: what follows from a figure waits for it.
constexpr std::array kRules{Rule{find_page_factor}, Rule{find_units_disagree}, Rule{find_false_slope}, Rule{find_series},           Rule{find_range_backwards}, Rule{find_bands},
                            Rule{find_reckoned},    Rule{find_width_odd},      Rule{find_wear_side},   Rule{find_unlike_its_kind}, Rule{find_two_figures},
                            Rule{find_fit_code},    Rule{find_tightening}};

/// The last word on it, if what is printed is what was decided about.
std::optional<SheetDecision> decision_on(const LimitSheet& sheet, const ProofFinding& finding) {
  const FigureSpot& spot = finding.spots.front();
  const auto found = std::find_if(sheet.decisions.rbegin(), sheet.decisions.rend(), [&](const SheetDecision& each) {
    return each.rule == finding.rule && each.row == spot.row && each.field == field_name(spot.field) && each.printed == finding.printed;
  });
  return found == sheet.decisions.rend() ? std::nullopt : std::optional(*found);
}

/// A ratio has none.
std::string unit_behind(const Quantity& quantity) {
  return quantity.dimension() == Dimension::count ? "" : " " + std::string(unit_definition(quantity.unit).symbol);
}

/// Read as a whole, as it was typed.
void put_right_whole(SheetRow& row, SheetField field, const SheetDecision& decision) {
  if (shown_at(row, field) != decision.printed) return;
  SheetRow with = row;
  with.stages.clear();
  with.sequence.clear();
  Problems problems;
  read_sheet_cell(with, field == SheetField::stages ? SheetColumn::stages : SheetColumn::sequence, decision.to, {{}, DecimalMark::point}, {}, problems);
  if (!problems.empty()) return;
  if (field == SheetField::stages) {
    row.stages = std::move(with.stages);
  } else {
    row.sequence = std::move(with.sequence);
  }
}

void put_right(SheetRow& row, const SheetDecision& decision) {
  for (const SheetField field : {SheetField::stages, SheetField::sequence}) {
    if (field_name(field) == decision.field) return put_right_whole(row, field, decision);
  }
  const bool single = row.fresh.from == row.fresh.to;
  for (const SheetField field : kSheetFields) {
    Printed& there = figure(row, field);
    if (field_name(field) != decision.field || shown(there) != decision.printed) continue;
    const auto cell = read_printed(decision.to, {{}, DecimalMark::point}, {});
    if (!cell.ok() || !(cell.value().range.from == cell.value().range.to)) continue;
    there = cell.value().range.from;
    if (single && field == SheetField::fresh_from) row.fresh.to = there;
    return;
  }
}

}  // namespace

std::string_view how_sure_name(HowSure sure) { return sure == HowSure::certain ? "certain" : "odd"; }

std::vector<std::string_view> proof_rules() {
  return {"page-factor", "units-disagree",  "false-slope", "series",    "range-backwards", "bands",
          "reckoned",    "double-rounding", "width-odd",   "wear-side", "wear-at-new",     "two-figures",
          "fit-code",    "tightening"};
}

std::vector<ProofFinding> proof_read(const LimitSheet& sheet, const Catalogue& known) {
  const LimitSheet decided = as_decided(sheet);
  ProofDesk desk(decided, known);
  for (const Rule rule : kRules) rule(desk);
  std::map<std::string, std::size_t> numbers;
  for (std::size_t i = 0; i < sheet.rows.size(); ++i) numbers.emplace(sheet.rows[i].id, i);
  std::stable_sort(desk.findings.begin(), desk.findings.end(), [&](const ProofFinding& a, const ProofFinding& b) {
    return numbers.at(a.spots.front().row) < numbers.at(b.spots.front().row);
  });
  for (ProofFinding& each : desk.findings) each.decided = decision_on(sheet, each);
  return std::move(desk.findings);
}

LimitSheet as_decided(const LimitSheet& sheet) {
  LimitSheet out = sheet;
  for (const SheetDecision& each : sheet.decisions) {
    if (each.decided != Decided::put_right) continue;
    for (SheetRow& row : out.rows) {
      if (row.id == each.row) put_right(row, each);
    }
  }
  return out;
}

ProofDesk::ProofDesk(const LimitSheet& of, const Catalogue& catalogue) : sheet(of), known(catalogue) {
  for (const SheetRow& row : sheet.rows) {
    rows_.emplace(row.id, &row);
    series_[{row.what, row.kind, characteristic_of(row), row.grade, row.choose}].push_back(&row);
    if (row.from.empty()) continue;
    const auto read = read_sheet_expression(row.from, row.place);
    if (!read.ok()) continue;
    for (const std::string& name : read.value().names()) followers_[name].push_back(&row);
    expressions_.emplace(row.id, read.value());
  }
  for (const auto& [name, rows] : series_) {
    for (const SheetRow* row : rows) series_of_.emplace(row->id, &rows);
  }
}

const SheetRow* ProofDesk::row(const std::string& id) const {
  const auto found = rows_.find(id);
  return found == rows_.end() ? nullptr : found->second;
}

const SheetExpression* ProofDesk::expression(const std::string& id) const {
  const auto found = expressions_.find(id);
  return found == expressions_.end() ? nullptr : &found->second;
}

const ProofDesk::Rows& ProofDesk::followers(const std::string& id) const {
  static const Rows kNone;
  const auto found = followers_.find(id);
  return found == followers_.end() ? kNone : found->second;
}

const ProofDesk::Rows& ProofDesk::series(const std::string& id) const {
  static const Rows kNone;
  const auto found = series_of_.find(id);
  return found == series_of_.end() ? kNone : *found->second;
}

void ProofDesk::ask(ProofFinding finding) {
  for (const FigureSpot& each : finding.spots) asked_.insert(each);
  for (const Likeliest& each : finding.likeliest) asked_.insert(each.spot);
  const SheetRow* there = row(finding.spots.front().row);
  if (there != nullptr) finding.printed = shown_at(*there, finding.spots.front().field);
  findings.push_back(std::move(finding));
}

std::string characteristic_of(const SheetRow& row) {
  return row.definition.empty() && row.characteristic ? std::string(family_name(*row.characteristic)) : row.definition;
}

std::string shown_at(const SheetRow& row, SheetField field) {
  if (field == SheetField::stages) return cell_text(row, SheetColumn::stages);
  return field == SheetField::sequence ? row.sequence : shown(figure(row, field));
}

std::string shown(const Printed& figure) {
  std::vector<std::string> parts;
  for (const UnitFamily family : kUnitFamilies) {
    const auto& each = figure.in(family);
    if (each) parts.push_back(digits_of(*each) + unit_behind(each->quantity));
  }
  return joined(parts, " = ");
}

std::string shown(const PrintedRange& range) {
  if (range.from == range.to) return shown(range.from);
  std::vector<std::string> parts;
  for (const UnitFamily family : kUnitFamilies) {
    const auto& from = range.from.in(family);
    const auto& to = range.to.in(family);
    if (!from && !to) continue;
    parts.push_back((from ? digits_of(*from) : "") + "…" + (to ? digits_of(*to) : "") + unit_behind((from ? from : to)->quantity));
  }
  return joined(parts, " = ");
}

std::string shown_like(const Ratio& base, const TypedQuantity& like) {
  return digits_like(base, like) + unit_behind(like.quantity);
}

TypedQuantity with_digits(const TypedQuantity& figure, const std::string& digits) {
  TypedQuantity out = figure;
  const auto point = digits.find('.');
  out.decimals = point == std::string::npos ? 0 : static_cast<int>(digits.size() - point - 1);
  Int128 whole = 0;
  for (const char each : digits) {
    if (each >= '0' && each <= '9') whole = whole * 10 + (each - '0');
  }
  const Ratio value = Ratio(whole) * Ratio::power_of_ten(-out.decimals);
  out.quantity.value = digits.starts_with('-') ? -value : value;
  out.text = digits;
  return out;
}

SheetRow with_figure(const SheetRow& row, SheetField field, UnitFamily family, const TypedQuantity& typed) {
  SheetRow out = row;
  figure(out, field).in(family) = typed;
  const bool single = row.fresh.from == row.fresh.to;
  if (single && field == SheetField::fresh_from) out.fresh.to = out.fresh.from;
  return out;
}

std::optional<UnitFamily> common_family(const Printed& a, const Printed& b) {
  for (const UnitFamily family : kUnitFamilies) {
    if (a.in(family) && b.in(family)) return family;
  }
  return std::nullopt;
}

}  // namespace fettle
