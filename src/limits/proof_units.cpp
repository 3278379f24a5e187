#include "limits/proof_units.h"

#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <tuple>

#include "limits/proof_row_unit.h"
#include "limits/proof_witness.h"

namespace fettle {
namespace {

constexpr std::array kConverted{SheetField::fresh_from, SheetField::fresh_to, SheetField::wear, SheetField::step, SheetField::standard, SheetField::quantity};

/// A figure in both units.
struct Pair {
  FigureSpot spot;
  const Printed* figure;
  [[nodiscard]] const TypedQuantity& metric() const { return *figure->metric; }
  [[nodiscard]] const TypedQuantity& inch() const { return *figure->inch; }
  [[nodiscard]] bool is_length() const { return metric().quantity.dimension() == Dimension::length; }
};

/// Slopes per inch and per mm are compared by the rule false-slope; per nothing is no slope.
bool is_slope_in_both(const SheetRow& row) {
  return row.per.in_both() && row.per.metric->quantity.in_base().sign() != 0 && row.per.inch->quantity.in_base().sign() != 0;
}

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
    if (!units_agree(each.metric(), each.inch())) wrong.push_back(each);
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
    // One row in another unit is no page: it has a sentence of its own.
    const bool one_row = std::all_of(explained.begin(), explained.end(), [&](const Pair& each) { return each.spot.row == first.spot.row; });
    if (one_row && (centimetres || candidate.factor < 0.01)) continue;
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

/// A nought is one in every unit, as far as its places go.
bool is_nought(const Pair& pair) {
  return (pair.metric().quantity.value.sign() == 0 || pair.inch().quantity.value.sign() == 0) && units_agree(pair.metric(), pair.inch());
}

/// `base` in the unit of `like`; where that is a fraction, the coarsest within `room`.
std::string shown_like_within(const Ratio& base, const TypedQuantity& like, const Ratio& room) {
  constexpr int kFinestPart = 64;
  if (!is_typed_fraction(like)) return shown_like(base, like);
  const Ratio factor = unit_definition(like.quantity.unit).factor;
  for (int part = 1; part <= kFinestPart; part *= 2) {
    TypedQuantity nearest = like;
    nearest.quantity.value = (base / factor * Ratio(part)).rounded() / Ratio(part);
    const Printed shown_so{{}, nearest};
    if (absolute(nearest.quantity.in_base() - base) <= room) return shown(shown_so);
  }
  return shown_like(base, like);
}

/// The two stand in each other's column: each figure in the other's unit.
std::optional<Printed> exchanged(const Pair& pair) {
  TypedQuantity metric = pair.inch();
  TypedQuantity inch = pair.metric();
  std::swap(metric.quantity.unit, inch.quantity.unit);
  if (!units_agree(metric, inch)) return std::nullopt;
  return Printed{metric, inch};
}

/// A slip that makes the two agree.
struct Mended {
  UnitFamily family;
  SlipSort sort;
  TypedQuantity figure;
  double off;   ///< how far they are apart then, of what rounding allows
  Heard heard;  ///< what the rest of the sheet says to it
};

std::vector<Mended> mended(const ProofDesk& desk, const SheetRow& row, const Pair& pair) {
  std::vector<Mended> out;
  for (const UnitFamily family : kUnitFamilies) {
    const TypedQuantity& slipped = *pair.figure->in(family);
    const TypedQuantity& other = family == UnitFamily::metric ? pair.inch() : pair.metric();
    for (const Slip& slip : slips_of(digits_of(slipped))) {
      TypedQuantity figure = with_digits(slipped, slip.digits);
      // A nought is meant where the other is one.
      if ((figure.quantity.value == Ratio{} && other.quantity.value != Ratio{}) || !units_agree(figure, other)) continue;
      const double room = (half_a_step(figure) + half_a_step(other)).to_double();
      const double off = room > 0.0 ? absolute(figure.quantity.in_base() - other.quantity.in_base()).to_double() / room : 0.0;
      const Heard heard = hear(desk, with_figure(row, pair.spot.field, family, figure));
      if (!heard.is_impossible()) out.push_back({family, slip.sort, std::move(figure), off, heard});
    }
  }
  // A moved point leaves the digits as they are: then it is the unit that was converted, or the inches, which lose their noughts.
  const UnitFamily likelier = other_family(desk.sheet.original.value_or(UnitFamily::metric));
  const auto rank = [&](const Mended& each) { return std::tuple(each.heard, each.sort, each.sort == SlipSort::point && each.family != likelier, each.off); };
  std::stable_sort(out.begin(), out.end(), [&](const Mended& a, const Mended& b) { return rank(a) < rank(b); });
  return out;
}

/// All figures of a row in both units, and one of the two units is another than the heading says: told once.
bool row_in_another_unit(ProofDesk& desk, const SheetRow& row, const std::vector<Pair>& pairs) {
  std::vector<Pair> figures;
  for (const Pair& each : pairs) {
    const bool limit = each.spot.field == SheetField::fresh_from || each.spot.field == SheetField::fresh_to || each.spot.field == SheetField::wear;
    if (limit && !is_nought(each)) figures.push_back(each);
  }
  if (figures.size() < 2 || std::any_of(figures.begin(), figures.end(), [&](const Pair& each) { return desk.is_asked(each.spot) || units_agree(each.metric(), each.inch()); })) return false;
  std::optional<ProofFinding> best;
  Heard best_heard{0, 0};
  for (const UnitFamily family : kUnitFamilies) {
    for (const UnitSlip& slip : unit_slips()) {
      RowInUnit meant{row, {}};
      const bool all = std::all_of(figures.begin(), figures.end(), [&](const Pair& each) {
        const TypedQuantity scaled = in_unit(*each.figure->in(family), slip);
        const Ratio room = half_a_step(*each.figure->in(family)) * slip.factor + half_a_step(*each.figure->in(other_family(family)));
        meant.row = with_figure(meant.row, each.spot.field, family, scaled);
        meant.changed.push_back(each.spot.field);
        return absolute(scaled.quantity.in_base() - each.figure->in(other_family(family))->quantity.in_base()) <= room && (!slip.length_only || each.is_length());
      });
      if (!all) continue;
      const Heard heard = hear(desk, meant.row);
      if (best && best_heard < heard) continue;
      ProofFinding found = row_unit_finding("units-disagree", HowSure::certain, row, family, meant, slip, {"proof.row_unit.units", {}});
      if (!best || heard < best_heard) {
        best = std::move(found);
        best_heard = heard;
      } else {
        best->likeliest.insert(best->likeliest.end(), found.likeliest.begin(), found.likeliest.end());
      }
    }
  }
  if (!best) return false;
  desk.ask(std::move(*best));
  return true;
}

/// "76.200 ±0.013 mm (3.0000 ±0.005 in)": the middle is one length, the widths are two. That is one trouble.
struct WidthsApart {
  Pair from;
  Pair to;

  [[nodiscard]] Ratio half_width(UnitFamily family) const { return (to.figure->in(family)->quantity.in_base() - from.figure->in(family)->quantity.in_base()) / Ratio(2); }
  [[nodiscard]] Ratio middle(UnitFamily family) const { return (to.figure->in(family)->quantity.in_base() + from.figure->in(family)->quantity.in_base()) / Ratio(2); }
  [[nodiscard]] Ratio room() const { return half_a_step(from.metric()) + half_a_step(from.inch()); }
  /// A width in its unit and with the places of its ends.
  [[nodiscard]] TypedQuantity width_as(const Ratio& half, UnitFamily family) const {
    TypedQuantity out = *from.figure->in(family);
    out.decimals = std::max(out.decimals, to.figure->in(family)->decimals);
    out.quantity.value = half / unit_definition(out.quantity.unit).factor;
    return out;
  }
  /// One slip in the width as it is printed makes it the other unit's.
  [[nodiscard]] bool is_one_slip(UnitFamily family) const {
    const TypedQuantity printed = width_as(half_width(family), family);
    const std::vector<Slip> slips = slips_of(digits_of(printed));
    return std::any_of(slips.begin(), slips.end(), [&](const Slip& each) {
      const TypedQuantity meant = with_digits(printed, each.digits);
      return meant.quantity.value.sign() > 0 && absolute(meant.quantity.in_base() - half_width(other_family(family))) <= room();
    });
  }
};

std::optional<WidthsApart> widths_apart(const ProofDesk& desk, const std::vector<Pair>& pairs) {
  const auto at = [&](SheetField field) { return std::find_if(pairs.begin(), pairs.end(), [&](const Pair& each) { return each.spot.field == field; }); };
  const auto from = at(SheetField::fresh_from);
  const auto to = at(SheetField::fresh_to);
  if (from == pairs.end() || to == pairs.end()) return std::nullopt;
  for (const auto& each : {from, to}) {
    if (!each->is_length() || desk.is_asked(each->spot) || units_agree(each->metric(), each->inch())) return std::nullopt;
  }
  WidthsApart out{*from, *to};
  const bool same_middle = absolute(out.middle(UnitFamily::metric) - out.middle(UnitFamily::inch)) <= out.room();
  const bool forwards = out.half_width(UnitFamily::metric).sign() > 0 && out.half_width(UnitFamily::inch).sign() > 0;
  return same_middle && forwards && (out.is_one_slip(UnitFamily::metric) || out.is_one_slip(UnitFamily::inch)) ? std::optional(out) : std::nullopt;
}

void tell_widths_apart(ProofDesk& desk, const SheetRow& row, const WidthsApart& apart) {
  ProofFinding finding{"units-disagree", HowSure::certain, {apart.from.spot, apart.to.spot}, {}, {}, {}};
  const auto width = [&](UnitFamily of, UnitFamily in) {
    const TypedQuantity as = apart.width_as(apart.half_width(of), in);
    return shown_like(as.quantity.in_base(), as);
  };
  finding.arithmetic = {"proof.units_disagree.widths",
                        {figures("metric", width(UnitFamily::metric, UnitFamily::metric)), figures("inch", width(UnitFamily::inch, UnitFamily::inch)),
                         figures("in_inch", width(UnitFamily::metric, UnitFamily::inch)), figures("in_metric", width(UnitFamily::inch, UnitFamily::metric)),
                         figures("middle", shown_like(apart.middle(UnitFamily::metric), apart.from.metric()))}};
  struct Meant {
    bool no_slip;
    Heard heard;
    bool unlikely;
    UnitFamily family;
  };
  std::vector<Meant> all;
  const UnitFamily likelier = other_family(desk.sheet.original.value_or(UnitFamily::metric));
  const auto end_of = [&](const Pair& end, UnitFamily family) {
    TypedQuantity out = *end.figure->in(family);
    out.quantity.value = end.figure->in(other_family(family))->quantity.in_base() / unit_definition(out.quantity.unit).factor;
    return with_digits(out, digits_of(out));
  };
  for (const UnitFamily family : kUnitFamilies) {
    const SheetRow from = with_figure(row, SheetField::fresh_from, family, end_of(apart.from, family));
    all.push_back({!apart.is_one_slip(family), hear(desk, with_figure(from, SheetField::fresh_to, family, end_of(apart.to, family))), family != likelier, family});
  }
  std::stable_sort(all.begin(), all.end(), [](const Meant& a, const Meant& b) { return std::tuple(a.no_slip, a.heard, a.unlikely) < std::tuple(b.no_slip, b.heard, b.unlikely); });
  for (const Meant& each : all) {
    if (each.no_slip) continue;
    for (const Pair* end : {&apart.from, &apart.to}) {
      const TypedQuantity meant = end_of(*end, each.family);
      finding.likeliest.push_back({end->spot, shown_like(meant.quantity.in_base(), meant)});
    }
  }
  desk.ask(std::move(finding));
}

}  // namespace

bool units_agree(const TypedQuantity& a, const TypedQuantity& b) {
  return absolute(a.quantity.in_base() - b.quantity.in_base()) <= half_a_step(a) + half_a_step(b);
}

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
    const std::vector<Pair> pairs = pairs_of(row);
    row_in_another_unit(desk, row, pairs);
    if (const auto apart = widths_apart(desk, pairs)) tell_widths_apart(desk, row, *apart);
    for (const Pair& pair : pairs) {
      if (desk.is_asked(pair.spot) || units_agree(pair.metric(), pair.inch())) continue;
      const std::string in_inch = shown_like_within(pair.metric().quantity.in_base(), pair.inch(), half_a_step(pair.metric()));
      const std::string in_metric = shown_like(pair.inch().quantity.in_base(), pair.metric());
      ProofFinding finding{"units-disagree", HowSure::certain, {pair.spot}, {}, {}, {}};
      finding.arithmetic = {"proof.units_disagree",
                            {figures("metric", shown(Printed{pair.metric(), {}})), figures("inch", shown(Printed{{}, pair.inch()})), figures("in_inch", in_inch), figures("in_metric", in_metric)}};
      // Where one of them is in order, the columns are.
      const bool whole_row = std::none_of(pairs.begin(), pairs.end(), [](const Pair& each) { return units_agree(each.metric(), each.inch()) && !is_nought(each); });
      if (const auto other_way = whole_row ? exchanged(pair) : std::nullopt) {
        finding.arithmetic.key = "proof.units_disagree.exchanged";
        finding.likeliest = {{pair.spot, shown(*other_way)}};
        desk.ask(std::move(finding));
        continue;
      }
      const std::vector<Mended> all = mended(desk, row, pair);
      std::set<UnitFamily> offered;
      for (const Mended& each : all) {
        // Digits go with the other unit's; of each unit one is enough.
        if (!offered.insert(each.family).second) continue;
        // A point that moves takes no places away.
        TypedQuantity like = each.figure;
        like.decimals = std::max(like.decimals, pair.figure->in(each.family)->decimals);
        finding.likeliest.push_back({pair.spot, shown_like(each.figure.quantity.in_base(), like)});
      }
      // No slip, or a digit that was there no more: the other unit converted is as likely.
      const bool weak = all.empty() || all.front().sort == SlipSort::leading || is_typed_fraction(pair.inch());
      // What is no more than a nought in the places of the other is no figure that anybody meant.
      const auto offer = [&](UnitFamily family, const Ratio& base, const TypedQuantity& like) {
        if (weak && !offered.contains(family) && absolute(base) > half_a_step(like)) finding.likeliest.push_back({pair.spot, family == UnitFamily::inch ? in_inch : in_metric});
      };
      offer(UnitFamily::inch, pair.metric().quantity.in_base(), pair.inch());
      offer(UnitFamily::metric, pair.inch().quantity.in_base(), pair.metric());
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
