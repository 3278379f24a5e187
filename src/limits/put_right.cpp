#include "limits/put_right.h"

#include <algorithm>

#include "limits/sheet_cells.h"

namespace fettle {
namespace {

/// "0.20 mm = 0.008 in" as the proof shows a figure, part by part.
std::vector<std::string> sides_of(const std::string& shown) {
  constexpr std::string_view kBetween = " = ";
  std::vector<std::string> out;
  std::size_t from = 0;
  for (auto at = shown.find(kBetween); at != std::string::npos; at = shown.find(kBetween, from)) {
    out.push_back(shown.substr(from, at - from));
    from = at + kBetween.size();
  }
  out.push_back(shown.substr(from));
  return out;
}

/// A ratio is shown without a unit.
std::optional<UnitId> unit_if_plain(const Printed& printed) {
  const TypedQuantity* figure = printed.preferring(UnitFamily::metric);
  return figure != nullptr && figure->quantity.dimension() == Dimension::count ? std::optional(figure->quantity.unit) : std::nullopt;
}

}  // namespace

std::string put_right_text(const Printed& printed, const std::string& likeliest) {
  SheetRow row{};
  row.wear = printed;
  for (const std::string& each : sides_of(likeliest)) {
    auto figure = read_quantity(each, {unit_if_plain(printed), {}, DecimalMark::point, {}, false, {}}, {});
    if (!figure.ok()) return "";
    const UnitFamily family = family_of(figure.value().quantity.unit);
    row.wear.in(family) = std::move(figure).value();
  }
  for (const auto& [column, text] : sheet_cells(row)) {
    if (column == SheetColumn::wear) return text;
  }
  return "";
}

std::vector<bool> decisions_that_hold(const LimitSheet& sheet, const std::vector<ProofFinding>& findings) {
  std::vector<bool> out;
  LimitSheet before = sheet;
  before.decisions.clear();
  for (const SheetDecision& each : sheet.decisions) {
    if (each.decided == Decided::put_right) {
      before.decisions = {each};
      LimitSheet after = as_decided(before);
      out.push_back(!(after.rows == before.rows));
      before = std::move(after);
    } else {
      out.push_back(std::any_of(findings.begin(), findings.end(), [&](const ProofFinding& finding) { return finding.decided == each; }));
    }
  }
  return out;
}

}  // namespace fettle
