#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "limits/proof_desk.h"
#include "limits/sheet_expression.h"

namespace fettle {
namespace {

/// To which side a thing wears.
enum class WearSide { unknown, larger, smaller };

/// Only of what the catalogue knows to be a size, an out-of-round or a clearance: a spring's force and a choke wear downwards, a taper of a
/// journal upwards, and a name alone does not tell them apart.
WearSide wear_side(const ProofDesk& desk, const SheetRow& row) {
  const Definition* definition = desk.known.definition(row.definition);
  if (definition == nullptr) return row.from.empty() ? WearSide::unknown : WearSide::larger;
  if (definition->family == Family::out_of_round || definition->family == Family::clearance) return WearSide::larger;
  const Kind* kind = desk.known.kind(row.kind);
  if (definition->family != Family::size || kind == nullptr || kind->feature == Feature::figure) return WearSide::unknown;
  return kind->feature == Feature::inside ? WearSide::larger : WearSide::smaller;
}

std::optional<UnitFamily> common_family(const Printed& a, const Printed& b) {
  for (const UnitFamily family : kUnitFamilies) {
    if (a.in(family) && b.in(family)) return family;
  }
  return std::nullopt;
}

const Ratio value_in(const Printed& figure, UnitFamily family) { return figure.in(family)->quantity.in_base(); }

/// What a clearance grows with wears larger, what it shrinks with wears smaller: of each row that such a row follows from.
using SidesByFit = std::map<std::string, WearSide>;

SidesByFit sides_by_fit(const LimitSheet& sheet) {
  SidesByFit out;
  for (const SheetRow& row : sheet.rows) {
    if (row.from.empty()) continue;
    const auto expression = read_sheet_expression(row.from, row.place);
    if (!expression.ok()) continue;
    for (const std::string& name : expression.value().names()) {
      const auto with = [&](double figure) {
        return expression.value().value([&](const std::string& each) -> SheetExpression::Span { return each == name ? SheetExpression::Span{figure, figure, 0} : SheetExpression::Span{1.0, 1.0, 0}; }).low;
      };
      const double grows = with(1.5) - with(1.0);
      if (grows > 0.0) out.emplace(name, WearSide::larger);
      if (grows < 0.0) out.emplace(name, WearSide::smaller);
    }
  }
  return out;
}

/// Where no definition is named: a figure that is the size of a bore or a shaft has its wear limit within a hundredth of itself.
WearSide likely_side(const ProofDesk& desk, const SidesByFit& fits, const SheetRow& row, const Ratio& low, const Ratio& high, const Ratio& wear) {
  if (!row.definition.empty()) return WearSide::unknown;
  const Ratio room = low / Ratio(100);
  const bool near = low.sign() > 0 && wear > low - room && wear < high + room && high - low < room;
  if (!near) return WearSide::unknown;
  const Kind* kind = desk.known.kind(row.kind);
  if (kind != nullptr && kind->feature != Feature::figure) return kind->feature == Feature::inside ? WearSide::larger : WearSide::smaller;
  const auto fit = fits.find(row.id);
  return fit == fits.end() ? WearSide::unknown : fit->second;
}

void wear_of(ProofDesk& desk, const SidesByFit& fits, const SheetRow& row) {
  const Printed& from = row.fresh.from.empty() ? row.fresh.to : row.fresh.from;
  const Printed& to = row.fresh.to.empty() ? row.fresh.from : row.fresh.to;
  const auto family = common_family(row.wear, from);
  const FigureSpot spot{row.id, SheetField::wear};
  if (!family || !to.in(*family) || desk.is_asked(spot)) return;
  const Ratio wear = value_in(row.wear, *family);
  const Ratio low = value_in(from, *family);
  const Ratio high = value_in(to, *family);
  const WearSide side = wear_side(desk, row);
  const std::vector<Argument> said{verbatim("what", row.what), figures("wear", shown(row.wear)), figures("new", shown(row.fresh))};
  if (low < wear && wear < high) return desk.ask({"wear-side", HowSure::certain, {spot}, {"proof.wear_side.inside", said}, {}, {}});
  const bool wrong = (side == WearSide::larger && wear < low) || (side == WearSide::smaller && wear > high);
  // A size of a kind, printed to the size of the part: its wear limit is near it, on the side to which the kind wears.
  const WearSide likely = side == WearSide::unknown ? likely_side(desk, fits, row, low, high, wear) : WearSide::unknown;
  if ((likely == WearSide::larger && wear < low) || (likely == WearSide::smaller && wear > high)) {
    return desk.ask({"wear-side", HowSure::odd, {spot}, {likely == WearSide::larger ? "proof.wear_side.below" : "proof.wear_side.above", said}, {}, {}});
  }
  if (wrong) return desk.ask({"wear-side", HowSure::certain, {spot}, {side == WearSide::larger ? "proof.wear_side.below" : "proof.wear_side.above", said}, {}, {}});
  const bool at_end = (wear == low || wear == high) && !(low == high && side == WearSide::unknown);
  if (at_end) desk.ask({"wear-at-new", HowSure::odd, {spot}, {"proof.wear_at_new", said}, {}, {}});
}

/// From and to of a row that can be compared.
struct Range {
  const SheetRow* row;
  UnitFamily family;
  Ratio low;
  Ratio high;
};

std::optional<Range> range_of(const SheetRow& row) {
  const auto family = common_family(row.fresh.from, row.fresh.to);
  if (!family) return std::nullopt;
  return Range{&row, *family, value_in(row.fresh.from, *family), value_in(row.fresh.to, *family)};
}

/// Ends of the bands of one choice, open where one is missing.
struct Band {
  const SheetRow* row;
  std::optional<Ratio> from;
  std::optional<Ratio> to;
};

bool band_before(const Band& a, const Band& b) {
  if (!a.from || !b.from) return !a.from && b.from.has_value();
  return *a.from < *b.from;
}

void bands_of(ProofDesk& desk, const std::vector<const SheetRow*>& rows, UnitFamily family, bool grades) {
  std::vector<Band> bands;
  const TypedQuantity* like = nullptr;
  for (const SheetRow* row : rows) {
    const auto& from = row->fresh.from.in(family);
    const auto& to = row->fresh.to.in(family);
    if (!from && !to) return;
    like = from ? &*from : &*to;
    bands.push_back({row, from ? std::optional(from->quantity.in_base()) : std::nullopt, to ? std::optional(to->quantity.in_base()) : std::nullopt});
  }
  std::sort(bands.begin(), bands.end(), band_before);
  std::vector<Message> places;
  std::vector<FigureSpot> spots;
  bool counted = true;  ///< every gap is one in the last place: meant for figures that are read no finer
  for (std::size_t i = 0; i + 1 < bands.size(); ++i) {
    if (!bands[i].to || !bands[i + 1].from || *bands[i].to == *bands[i + 1].from) continue;
    const bool gap = *bands[i].to < *bands[i + 1].from;
    places.push_back({gap ? "proof.bands.gap" : "proof.bands.overlap", {figures("from", shown_like(*bands[i].to, *like)), figures("to", shown_like(*bands[i + 1].from, *like))}});
    spots.push_back({bands[i + 1].row->id, SheetField::fresh_from});
    counted = counted && gap && *bands[i + 1].from - *bands[i].to == half_a_step(*like) * Ratio(2);
  }
  if (places.empty() || desk.is_asked(spots.front())) return;
  desk.ask({"bands", counted || grades ? HowSure::odd : HowSure::certain, spots, {"proof.bands", {verbatim("what", rows.front()->what), list("places", places)}}, {}, {}});
}

bool same_figures(const SheetRow& a, const SheetRow& b) {
  for (const auto& [one, other] : {std::pair{&a.fresh.from, &b.fresh.from}, std::pair{&a.fresh.to, &b.fresh.to}, std::pair{&a.wear, &b.wear}}) {
    const auto family = common_family(*one, *other);
    if (family && value_in(*one, *family) != value_in(*other, *family)) return false;
    // In two units only: as far as rounding goes.
    if (!family && !one->empty() && !other->empty()) {
      const TypedQuantity& x = *one->preferring(UnitFamily::metric);
      const TypedQuantity& y = *other->preferring(UnitFamily::metric);
      if (absolute(x.quantity.in_base() - y.quantity.in_base()) > half_a_step(x) + half_a_step(y)) return false;
    }
  }
  return true;
}

bool same_new(const SheetRow& a, const SheetRow& b) {
  SheetRow without = a;
  SheetRow other = b;
  without.wear = {};
  other.wear = {};
  return same_figures(without, other);
}

/// "page 12", or the line where no page is said.
Message place_of(const SheetRow& row) {
  if (!row.page.empty()) return {"proof.page", {verbatim("page", row.page)}};
  return {"proof.line", {count("line", row.place.line.value_or(0))}};
}

}  // namespace

void find_range_backwards(ProofDesk& desk) {
  for (const SheetRow& row : desk.sheet.rows) {
    const auto range = range_of(row);
    if (!range || range->low <= range->high || desk.is_asked({row.id, SheetField::fresh_from}) || desk.is_asked({row.id, SheetField::fresh_to})) continue;
    ProofFinding finding{"range-backwards", HowSure::certain, {{row.id, SheetField::fresh_to}, {row.id, SheetField::fresh_from}}, {}, {}, {}};
    finding.arithmetic = {"proof.range_backwards", {verbatim("what", row.what), figures("from", shown(row.fresh.from)), figures("to", shown(row.fresh.to))}};
    const TypedQuantity& low = *row.fresh.to.in(range->family);
    const TypedQuantity& high = *row.fresh.from.in(range->family);
    finding.likeliest = {{{row.id, SheetField::fresh_from}, shown_like(low.quantity.in_base(), low)}, {{row.id, SheetField::fresh_to}, shown_like(high.quantity.in_base(), high)}};
    desk.ask(std::move(finding));
  }
}

void find_wear_side(ProofDesk& desk) {
  const SidesByFit fits = sides_by_fit(desk.sheet);
  for (const SheetRow& row : desk.sheet.rows) {
    const bool ends = desk.is_asked({row.id, SheetField::fresh_from}) || desk.is_asked({row.id, SheetField::fresh_to});
    if (!row.wear.empty() && !row.fresh.empty() && !ends) wear_of(desk, fits, row);
  }
}

void find_bands(ProofDesk& desk) {
  std::map<std::vector<std::string>, std::vector<const SheetRow*>> tables;
  for (const SheetRow& row : desk.sheet.rows) {
    // Size classes meet as what is to be chosen does, though a book may leave some out.
    if (!row.choose.empty()) tables[{row.what, "choose"}].push_back(&row);
    if (row.choose.empty() && !row.grade.empty() && row.from.empty() && !row.fresh.empty()) tables[{row.what, "grade", row.kind, row.definition, shown(row.step)}].push_back(&row);
  }
  for (const auto& [what, rows] : tables) {
    const bool inch = std::all_of(rows.begin(), rows.end(), [](const SheetRow* each) { return each->fresh.from.inch || each->fresh.to.inch; });
    bands_of(desk, rows, inch ? UnitFamily::inch : UnitFamily::metric, what[1] == "grade");
  }
}

void find_two_figures(ProofDesk& desk) {
  std::map<std::vector<std::string>, const SheetRow*> first;
  for (const SheetRow& row : desk.sheet.rows) {
    if (!row.choose.empty()) continue;
    // "Clearance" of two fits is two things: they follow from different rows.
    const std::vector<std::string> thing{row.what, row.kind, row.definition, shown(row.step), row.grade, shown(row.per), row.from};
    const auto [there, fresh] = first.emplace(thing, &row);
    if (fresh || same_figures(*there->second, row)) continue;
    const bool by_wear = row.fresh.empty() || same_new(*there->second, row);
    const SheetField field = by_wear ? SheetField::wear : SheetField::fresh_from;
    if (desk.is_asked({row.id, field}) || desk.is_asked({there->second->id, field})) continue;
    const auto said = [](const SheetRow& each) { return shown(each.fresh) + (each.wear.empty() ? "" : " / " + shown(each.wear)); };
    // A name is no proof that it is the same thing; a kind is.
    const HowSure sure = row.kind.empty() ? HowSure::odd : HowSure::certain;
    desk.ask({"two-figures", sure, {{row.id, field}, {there->second->id, field}},
              {"proof.two_figures", {verbatim("what", row.what), figures("first", said(*there->second)), list("first_place", {place_of(*there->second)}), figures("second", said(row)), list("second_place", {place_of(row)})}}, {}, {}});
  }
}

void find_width_odd(ProofDesk& desk) {
  std::vector<Ratio> widths;
  for (const SheetRow& row : desk.sheet.rows) {
    const auto range = range_of(row);
    if (range && range->high > range->low && figure(row, SheetField::fresh_from).in(range->family)->quantity.dimension() == Dimension::length) widths.push_back(range->high - range->low);
  }
  if (widths.size() < 5) return;
  std::sort(widths.begin(), widths.end());
  const Ratio usual = widths[widths.size() / 2];
  for (const SheetRow& row : desk.sheet.rows) {
    const auto range = range_of(row);
    if (!range || range->high <= range->low || !row.from.empty() || !row.choose.empty() || desk.is_asked({row.id, SheetField::fresh_from}) || desk.is_asked({row.id, SheetField::fresh_to})) continue;
    const TypedQuantity& from = *row.fresh.from.in(range->family);
    const TypedQuantity& to = *row.fresh.to.in(range->family);
    const Ratio width = range->high - range->low;
    // A size printed to its last hundredths, with a range wider than a fiftieth of it, is nothing that anybody makes.
    const bool fine = from.decimals >= 2 && to.decimals >= 2 && range->low > width;
    if (from.quantity.dimension() != Dimension::length || !fine || width < usual * Ratio(20) || width * Ratio(100) < range->high * Ratio(2)) continue;
    std::vector<Likeliest> likeliest;
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      const TypedQuantity& printed = *figure(row, field).in(range->family);
      const TypedQuantity& other = field == SheetField::fresh_from ? to : from;
      for (const Slip& slip : slips_of(digits_of(printed))) {
        const TypedQuantity meant = with_digits(printed, slip.digits);
        const Ratio would = absolute(meant.quantity.in_base() - other.quantity.in_base());
        const bool alike = would.sign() > 0 && would <= usual * Ratio(5) && would * Ratio(5) >= usual;
        if (slip.sort == SlipSort::digit && alike) likeliest.push_back({{row.id, field}, shown_like(meant.quantity.in_base(), meant)});
      }
    }
    if (likeliest.empty()) continue;
    desk.ask({"width-odd", HowSure::odd, {{row.id, SheetField::fresh_to}, {row.id, SheetField::fresh_from}},
              {"proof.width_odd", {verbatim("what", row.what), figures("printed", shown(row.fresh)), figures("width", shown_like(width, to)), figures("usual", shown_like(usual, to))}}, likeliest, {}});
  }
}

}  // namespace fettle
