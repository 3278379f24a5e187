#include "limits/proof.h"

#include <algorithm>
#include <array>
#include <map>

#include "base/joined.h"
#include "limits/printed_cell.h"
#include "limits/proof_desk.h"

namespace fettle {
namespace {

using Rule = void (*)(ProofDesk&);
constexpr std::array<Rule, 10> kRules{find_page_factor,    find_units_disagree, find_false_slope, find_series, find_range_backwards,
                                      find_reckoned,        find_wear_side,      find_bands,       find_two_figures, find_width_odd};

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

void put_right(SheetRow& row, const SheetDecision& decision) {
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
  return {"page-factor", "units-disagree", "false-slope", "series",      "reckoned",    "double-rounding",
          "range-backwards", "wear-side",  "wear-at-new", "bands",       "two-figures", "width-odd"};
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

void ProofDesk::ask(ProofFinding finding) {
  for (const FigureSpot& each : finding.spots) asked_.insert(each);
  for (const Likeliest& each : finding.likeliest) asked_.insert(each.spot);
  const SheetRow* row = sheet.row(finding.spots.front().row);
  if (row != nullptr) finding.printed = shown(figure(*row, finding.spots.front().field));
  findings.push_back(std::move(finding));
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

}  // namespace fettle
