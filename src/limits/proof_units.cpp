#include <algorithm>
#include <array>
#include <map>

#include "limits/proof_desk.h"

namespace fettle {
namespace {

constexpr std::array kConverted{SheetField::fresh_from, SheetField::fresh_to, SheetField::wear, SheetField::step};

/// A figure in both units.
struct Pair {
  FigureSpot spot;
  const Printed* figure;
  [[nodiscard]] const TypedQuantity& metric() const { return *figure->metric; }
  [[nodiscard]] const TypedQuantity& inch() const { return *figure->inch; }
  [[nodiscard]] bool is_length() const { return metric().quantity.dimension() == Dimension::length; }
};

bool agree(const TypedQuantity& a, const TypedQuantity& b) {
  return absolute(a.quantity.in_base() - b.quantity.in_base()) <= half_a_step(a) + half_a_step(b);
}

/// Slopes per inch and per mm are compared by the rule false-slope.
bool is_slope_in_both(const SheetRow& row) { return row.per.in_both(); }

std::vector<Pair> pairs_of(const SheetRow& row) {
  std::vector<Pair> out;
  for (const SheetField field : kConverted) {
    if (field != SheetField::step && is_slope_in_both(row)) continue;
    const Printed& each = figure(row, field);
    if (!each.in_both()) continue;
    const bool twice = field == SheetField::fresh_to && row.fresh.from == row.fresh.to;
    if (!twice) out.push_back({{row.id, field}, &each});
  }
  return out;
}

/// Inches to the millimetre that a pair may have been converted by.
struct Factors {
  double low;
  double high;
  [[nodiscard]] bool hold(double factor) const { return low <= factor && factor <= high; }
};

Factors factors_of(const Pair& pair) {
  constexpr double kInch = 25.4 * static_cast<double>(Length::kCountsPerMillimetre);
  const double mm = absolute(pair.metric().quantity.in_base()).to_double() * 25.4 / kInch;
  const double mm_half = half_a_step(pair.metric()).to_double() * 25.4 / kInch;
  const double inch = absolute(pair.inch().quantity.in_base()).to_double() / kInch;
  const double inch_half = half_a_step(pair.inch()).to_double() / kInch;
  return {(inch - inch_half) / (mm + mm_half), mm > mm_half ? (inch + inch_half) / (mm - mm_half) : 1e9};
}

struct PageFactor {
  double factor;
  std::string_view shown;
};
/// The ones that are seen; each is looked for by its own figure, so that what is said is what was done.
constexpr std::array<PageFactor, 6> kWrongFactors{{{0.0394, "0.0394"}, {0.04, "0.04"}, {0.0393, "0.0393"}, {1.0 / 2.54, "1 / 2.54"}, {0.394, "0.394"}, {1.0 / 254.0, "1 / 254"}}};
constexpr std::size_t kLeastPairs = 3;

void page_factor_of(ProofDesk& desk, const std::vector<Pair>& pairs) {
  std::vector<Pair> wrong;
  for (const Pair& each : pairs) {
    if (!agree(each.metric(), each.inch())) wrong.push_back(each);
  }
  if (wrong.size() < kLeastPairs) return;
  for (const PageFactor& candidate : kWrongFactors) {
    std::vector<Pair> explained;
    for (const Pair& each : wrong) {
      if (factors_of(each).hold(candidate.factor)) explained.push_back(each);
    }
    // A single slip of its own may stand on such a page too.
    if (explained.size() < kLeastPairs || explained.size() * 5 < wrong.size() * 4) continue;
    const Pair& first = explained.front();
    const bool centimetres = candidate.factor > 0.3;
    const Ratio meant = centimetres ? first.metric().quantity.in_base() * Ratio(10) : first.metric().quantity.in_base();
    ProofFinding finding{"page-factor", HowSure::certain, {}, {}, {}, {}};
    for (const Pair& each : explained) finding.spots.push_back(each.spot);
    TypedQuantity wrong_side = centimetres ? first.metric() : first.inch();
    if (centimetres) wrong_side.decimals = std::max(0, wrong_side.decimals - 1);
    finding.arithmetic = {centimetres ? "proof.page_factor.centimetres" : "proof.page_factor",
                          {figures("factor", std::string(candidate.shown)), count("count", static_cast<std::int64_t>(explained.size())), figures("printed", shown(*first.figure)),
                           figures("right", shown_like(meant, wrong_side))}};
    finding.likeliest.push_back({first.spot, shown_like(meant, wrong_side)});
    desk.ask(std::move(finding));
    return;
  }
}

/// The two stand in each other's column: each figure in the other's unit.
std::optional<Printed> exchanged(const Pair& pair) {
  TypedQuantity metric = pair.inch();
  TypedQuantity inch = pair.metric();
  std::swap(metric.quantity.unit, inch.quantity.unit);
  if (!pair.is_length() || !agree(metric, inch)) return std::nullopt;
  return Printed{metric, inch};
}

/// A slip that makes the two agree.
struct Mended {
  UnitFamily family;
  SlipSort sort;
  TypedQuantity figure;
  double off;  ///< how far they are apart then, of what rounding allows
};

std::vector<Mended> mended(const Pair& pair) {
  std::vector<Mended> out;
  for (const UnitFamily family : kUnitFamilies) {
    const TypedQuantity& slipped = *pair.figure->in(family);
    const TypedQuantity& other = family == UnitFamily::metric ? pair.inch() : pair.metric();
    for (const Slip& slip : slips_of(digits_of(slipped))) {
      TypedQuantity figure = with_digits(slipped, slip.digits);
      if (slip.sort == SlipSort::sign || figure.quantity.value == Ratio{} || !agree(figure, other)) continue;
      const double room = (half_a_step(figure) + half_a_step(other)).to_double();
      const double off = absolute(figure.quantity.in_base() - other.quantity.in_base()).to_double() / room;
      out.push_back({family, slip.sort, std::move(figure), off});
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const Mended& a, const Mended& b) { return a.sort != b.sort ? a.sort < b.sort : a.off < b.off; });
  return out;
}

/// Whether the row is in order with this figure: its range runs upwards.
bool fits_row(const SheetRow& row, const Pair& pair, const Mended& mend) {
  SheetRow with = row;
  figure(with, pair.spot.field).in(mend.family) = mend.figure;
  const auto& from = with.fresh.from.in(mend.family);
  const auto& to = with.fresh.to.in(mend.family);
  return !from || !to || from->quantity.in_base() <= to->quantity.in_base();
}

}  // namespace

void find_page_factor(ProofDesk& desk) {
  std::map<std::string, std::vector<Pair>> pages;
  for (const SheetRow& row : desk.sheet.rows) {
    for (Pair& each : pairs_of(row)) {
      if (each.is_length()) pages[row.page].push_back(std::move(each));
    }
  }
  for (const auto& [page, pairs] : pages) page_factor_of(desk, pairs);
}

void find_units_disagree(ProofDesk& desk) {
  for (const SheetRow& row : desk.sheet.rows) {
    for (const Pair& pair : pairs_of(row)) {
      if (desk.is_asked(pair.spot) || agree(pair.metric(), pair.inch())) continue;
      const std::string in_inch = shown_like(pair.metric().quantity.in_base(), pair.inch());
      const std::string in_metric = shown_like(pair.inch().quantity.in_base(), pair.metric());
      ProofFinding finding{"units-disagree", HowSure::certain, {pair.spot}, {}, {}, {}};
      finding.arithmetic = {"proof.units_disagree",
                            {figures("metric", shown(Printed{pair.metric(), {}})), figures("inch", shown(Printed{{}, pair.inch()})), figures("in_inch", in_inch), figures("in_metric", in_metric)}};
      if (const auto other_way = exchanged(pair)) {
        finding.arithmetic.key = "proof.units_disagree.exchanged";
        finding.likeliest = {{pair.spot, shown(*other_way)}};
        desk.ask(std::move(finding));
        continue;
      }
      for (const Mended& each : mended(pair)) {
        if (!fits_row(row, pair, each)) continue;
        // Digits go with the other unit's; of each unit one is enough.
        const auto same_side = [&](const Likeliest& other) { return other.text.ends_with(unit_definition(each.figure.quantity.unit).symbol); };
        if (std::any_of(finding.likeliest.begin(), finding.likeliest.end(), same_side)) continue;
        finding.likeliest.push_back({pair.spot, shown_like(each.figure.quantity.in_base(), each.figure)});
      }
      if (finding.likeliest.empty()) {
        // What is no more than a nought in the places of the other is no figure that anybody meant.
        const auto offer = [&](const Ratio& base, const TypedQuantity& like) {
          if (absolute(base) > half_a_step(like)) finding.likeliest.push_back({pair.spot, shown_like(base, like)});
        };
        offer(pair.metric().quantity.in_base(), pair.inch());
        offer(pair.inch().quantity.in_base(), pair.metric());
      }
      desk.ask(std::move(finding));
    }
  }
}

void find_false_slope(ProofDesk& desk) {
  for (const SheetRow& row : desk.sheet.rows) {
    if (!is_slope_in_both(row)) continue;
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to, SheetField::wear}) {
      const Printed& printed = figure(row, field);
      if (!printed.in_both() || (field == SheetField::fresh_to && row.fresh.from == row.fresh.to)) continue;
      const auto slope = [&](UnitFamily family, const Ratio& more) { return (printed.in(family)->quantity.in_base() + more) / row.per.in(family)->quantity.in_base(); };
      const Ratio apart = absolute(slope(UnitFamily::metric, {}) - slope(UnitFamily::inch, {}));
      const Ratio room = half_a_step(*printed.metric) / row.per.metric->quantity.in_base() + half_a_step(*printed.inch) / row.per.inch->quantity.in_base();
      if (apart <= room) continue;
      const Ratio meant = slope(UnitFamily::inch, {}) * row.per.metric->quantity.in_base();
      TypedQuantity like = *printed.metric;
      like.decimals = std::max(like.decimals, printed.inch->decimals);
      ProofFinding finding{"false-slope", HowSure::certain, {{row.id, field}}, {}, {}, {}};
      finding.arithmetic = {"proof.false_slope",
                            {figures("inch", shown(Printed{{}, *printed.inch}) + " / " + shown(Printed{{}, *row.per.inch})),
                             figures("metric", shown(Printed{*printed.metric, {}}) + " / " + shown(Printed{*row.per.metric, {}})), figures("right", shown_like(meant, like))}};
      finding.likeliest = {{{row.id, field}, shown_like(meant, like)}};
      desk.ask(std::move(finding));
    }
  }
}

}  // namespace fettle
