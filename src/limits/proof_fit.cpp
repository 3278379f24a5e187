#include <algorithm>

#include "limits/proof_desk.h"
#include "limits/sheet_fit.h"

namespace fettle {
namespace {

/// What is new by the fit, as far as the row says which side of it: the kind, else what the code leaves no choice of.
std::optional<PrintedRange> by_fit(const SheetRow& row, const Catalogue& known) {
  const auto fit = read_sheet_fit(row.fit, row.place);
  if (!fit.ok()) return std::nullopt;
  const Kind* kind = known.kind(row.kind);
  const bool both = fit.value().hole && fit.value().shaft;
  if (kind == nullptr && both) return std::nullopt;
  const PrintedRange out = fresh_by_fit(fit.value(), kind != nullptr ? kind->feature : fit.value().hole ? Feature::inside : Feature::outside);
  return out.empty() ? std::nullopt : std::optional(out);
}

/// What is printed, in either unit, is the exact figure but for the rounding of the print.
bool is_printed(const Printed& printed, const TypedQuantity& exact) {
  return std::all_of(kUnitFamilies.begin(), kUnitFamilies.end(), [&](UnitFamily family) {
    const auto& each = printed.in(family);
    return !each || each->quantity.dimension() != Dimension::length || absolute(each->quantity.in_base() - exact.quantity.in_base()) <= half_a_step(*each);
  });
}

}  // namespace

void find_fit_code(ProofDesk& desk) {
  for (const SheetRow& row : desk.sheet.rows) {
    if (row.fit.empty() || row.fresh.empty()) continue;
    const auto exact = by_fit(row, desk.known);
    if (!exact) continue;
    for (const auto& [field, figure_of_fit] : {std::pair{SheetField::fresh_from, &exact->from}, std::pair{SheetField::fresh_to, &exact->to}}) {
      const Printed& printed = figure(row, field);
      if (printed.empty() || desk.is_asked({row.id, field}) || is_printed(printed, *figure_of_fit->metric)) continue;
      const TypedQuantity& like = *printed.preferring(UnitFamily::metric);
      const Ratio right = figure_of_fit->metric->quantity.in_base();
      desk.ask({"fit-code", HowSure::certain, {{row.id, field}},
                {"proof.fit_code", {verbatim("what", row.what), verbatim("fit", row.fit), figures("from", shown(exact->from)), figures("to", shown(exact->to)), figures("printed", shown(printed))}},
                {{{row.id, field}, shown_like(right, like)}}, {}});
    }
  }
}

}  // namespace fettle
