#include <algorithm>
#include <array>

#include "limits/proof_desk.h"
#include "limits/sheet_fit.h"

namespace fettle {
namespace {

constexpr std::array kEnds{&PrintedRange::from, &PrintedRange::to};
constexpr std::int64_t kPlayOfASize = 20;  // a play is taken for one below this part of its size; looser fits need a kind to be judged

/// The play of a fit is small beside its size, the sizes themselves are not.
bool is_play(const PrintedRange& printed, const Length& nominal) {
  return std::all_of(kUnitFamilies.begin(), kUnitFamilies.end(), [&](UnitFamily family) {
    return std::all_of(kEnds.begin(), kEnds.end(), [&](Printed PrintedRange::*end) {
      const auto& each = (printed.*end).in(family);
      return !each || absolute(each->quantity.in_base()) * Ratio(kPlayOfASize) < nominal.ratio();
    });
  });
}

/// What is new by the fit, as far as the row says which side of it: the kind, else what the code leaves no choice of, else figures that can only be the play.
std::optional<PrintedRange> by_fit(const SheetRow& row, const Catalogue& known) {
  const auto fit = read_sheet_fit(row.fit, row.place);
  if (!fit.ok()) return std::nullopt;
  const Kind* kind = known.kind(row.kind);
  const bool both = fit.value().hole && fit.value().shaft;
  if (kind == nullptr && both && !is_play(row.fresh, fit.value().nominal)) return std::nullopt;
  const Feature side = kind != nullptr ? kind->feature : both ? Feature::figure : fit.value().hole ? Feature::inside : Feature::outside;
  const PrintedRange out = fresh_by_fit(fit.value(), side);
  return out.empty() ? std::nullopt : std::optional(out);
}

/// What is printed, in either unit, is the exact figure but for the rounding of the print.
bool is_printed(const Printed& printed, const TypedQuantity& exact) {
  return std::all_of(kUnitFamilies.begin(), kUnitFamilies.end(), [&](UnitFamily family) {
    const auto& each = printed.in(family);
    return !each || each->quantity.dimension() != Dimension::length || absolute(each->quantity.in_base() - exact.quantity.in_base()) <= half_a_step(*each);
  });
}

/// Interference printed without its sign: "0.002-0.051" of -0.051 to -0.002.
PrintedRange as_interference(const PrintedRange& play) {
  const auto turned = [](Printed figure) {
    figure.metric->quantity.value = -figure.metric->quantity.value;
    return figure;
  };
  return {turned(play.to), turned(play.from)};
}

bool is_printed(const PrintedRange& printed, const PrintedRange& exact) {
  return is_printed(printed.from, *exact.from.metric) && is_printed(printed.to, *exact.to.metric);
}

}  // namespace

void find_fit_code(ProofDesk& desk) {
  for (const SheetRow& row : desk.sheet.rows) {
    if (row.fit.empty() || row.fresh.empty()) continue;
    const auto exact = by_fit(row, desk.known);
    if (!exact || is_printed(row.fresh, *exact)) continue;
    if (exact->to.metric->quantity.value.sign() <= 0 && is_printed(row.fresh, as_interference(*exact))) continue;
    // Both ends are one trouble: another code, another size, a sign.
    ProofFinding finding{"fit-code", HowSure::certain, {}, {}, {}, {}};
    PrintedRange wrong;
    for (const auto& [field, end] : {std::pair{SheetField::fresh_from, &PrintedRange::from}, std::pair{SheetField::fresh_to, &PrintedRange::to}}) {
      const Printed& printed = row.fresh.*end;
      const TypedQuantity& right = *((*exact).*end).metric;
      if (printed.empty() || desk.is_asked({row.id, field}) || is_printed(printed, right)) continue;
      wrong.*end = printed;
      finding.spots.push_back({row.id, field});
      finding.likeliest.push_back({{row.id, field}, shown_like(right.quantity.in_base(), *printed.preferring(UnitFamily::metric))});
    }
    if (finding.spots.empty()) continue;
    finding.arithmetic = {"proof.fit_code", {verbatim("what", row.what), verbatim("fit", row.fit), figures("from", shown(exact->from)), figures("to", shown(exact->to)), figures("printed", wrong.from.empty() ? shown(wrong.to) : wrong.to.empty() ? shown(wrong.from) : shown(wrong))}};
    desk.ask(std::move(finding));
  }
}

}  // namespace fettle
