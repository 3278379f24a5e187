#include "limits/proof_wear.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "limits/proof_desk.h"
#include "limits/proof_row_unit.h"

namespace fettle {
namespace {

/// Away from what is new; not positive inside of it.
double distance(const TypedQuantity& from, const TypedQuantity& to, const TypedQuantity& wear) {
  const double limit = wear.quantity.in_base().to_double();
  return std::max(from.quantity.in_base().to_double() - limit, limit - to.quantity.in_base().to_double());
}

/// How many digits are printed behind the noughts in front.
std::size_t figures_of(const TypedQuantity& figure) {
  const std::string digits = digits_of(figure);
  const auto first = digits.find_first_of("123456789");
  if (first == std::string::npos) return 0;
  return static_cast<std::size_t>(std::count_if(digits.begin() + static_cast<std::ptrdiff_t>(first), digits.end(), [](char each) { return each >= '0' && each <= '9'; }));
}

/// To which side a thing wears.
enum class WearSide { unknown, larger, smaller };

/// Only of what the catalogue knows to be a size, an out-of-round or a clearance: a spring's force and a choke wear downwards, a taper of a
/// journal upwards, and a name alone does not tell them apart.
WearSide wear_side(const ProofDesk& desk, const SheetRow& row) {
  const Definition* definition = desk.known.definition(row.definition);
  if (definition == nullptr && !row.characteristic) return row.from.empty() ? WearSide::unknown : WearSide::larger;
  const Family family = definition != nullptr ? definition->family : *row.characteristic;
  if (family == Family::out_of_round || family == Family::clearance) return WearSide::larger;
  const Kind* kind = desk.known.kind(row.kind);
  if (family != Family::size || kind == nullptr || kind->feature == Feature::figure) return WearSide::unknown;
  return kind->feature == Feature::inside ? WearSide::larger : WearSide::smaller;
}

/// What a clearance grows with wears larger, what it shrinks with wears smaller: of each row that such a row follows from.
using SidesByFit = std::map<std::string, WearSide>;

SidesByFit sides_by_fit(const ProofDesk& desk) {
  SidesByFit out;
  for (const SheetRow& row : desk.sheet.rows) {
    const SheetExpression* expression = desk.expression(row.id);
    if (expression == nullptr) continue;
    for (const std::string& name : expression->names()) {
      const auto with = [&](double figure) {
        return expression->value([&](const std::string& each) -> SheetExpression::Span { return each == name ? SheetExpression::Span{figure, figure, 0} : SheetExpression::Span{1.0, 1.0, 0}; }).low;
      };
      const double grows = with(1.5) - with(1.0);
      if (grows > 0.0) out.emplace(name, WearSide::larger);
      if (grows < 0.0) out.emplace(name, WearSide::smaller);
    }
  }
  return out;
}

/// Where neither definition nor characteristic is named: the side of its kind, or the one that its fits say.
WearSide likely_side(const ProofDesk& desk, const SidesByFit& fits, const SheetRow& row) {
  if (!row.definition.empty() || row.characteristic) return WearSide::unknown;
  const Kind* kind = desk.known.kind(row.kind);
  if (kind != nullptr && kind->feature != Feature::figure) return kind->feature == Feature::inside ? WearSide::larger : WearSide::smaller;
  const auto fit = fits.find(row.id);
  return fit == fits.end() ? WearSide::unknown : fit->second;
}

/// A row with its wear limit, in one family of units.
struct Worn {
  const SheetRow& row;
  UnitFamily family;
  const TypedQuantity& from;
  const TypedQuantity& to;
  const TypedQuantity& wear;
  Ratio low;
  Ratio high;
  Ratio limit;
  WearSide side;    ///< by its definition
  WearSide likely;  ///< by its kind or its fits, of a size
};

/// A size of a bore or a shaft has its wear limit within a hundredth of itself.
bool is_size(const Worn& worn) { return worn.low.sign() > 0 && worn.high - worn.low < worn.low / Ratio(100); }
bool is_near(const Worn& worn) {
  const Ratio room = worn.low / Ratio(100);
  return is_size(worn) && worn.limit > worn.low - room && worn.limit < worn.high + room;
}

bool is_against(WearSide side, const Ratio& limit, const Worn& worn) {
  return (side == WearSide::larger && limit < worn.low) || (side == WearSide::smaller && limit > worn.high);
}

constexpr std::size_t kMostLikely = 3;

/// What the wear limit would be with one slip less: outside of what is new, near it, and not on the side to which nothing wears.
std::vector<Likeliest> near_limits(const Worn& worn) {
  struct Near {
    TypedQuantity limit;
    SlipSort sort;
    double away;
    bool other_side;  ///< than the one on which it is likely
  };
  std::vector<Near> all;
  const double sane = sane_wear_distance(worn.from, worn.to);
  // From inside, a play, a gap and an out-of-round go upwards.
  const bool larger = worn.limit > worn.high || (worn.limit >= worn.low && !is_size(worn));
  for (const Slip& slip : slips_of(digits_of(worn.wear))) {
    TypedQuantity meant = with_digits(worn.wear, slip.digits);
    const double away = distance(worn.from, worn.to, meant);
    const Ratio limit = meant.quantity.in_base();
    const bool wrong = is_against(worn.side, limit, worn) || is_against(worn.likely, limit, worn);
    if (worn.low.sign() >= 0 && limit.sign() <= 0) continue;
    if (slip.sort != SlipSort::sign && away > 0.0 && away * 2.0 <= sane && !wrong) all.push_back({std::move(meant), slip.sort, away, (limit > worn.high) != larger});
  }
  std::stable_sort(all.begin(), all.end(), [](const Near& a, const Near& b) { return std::tuple(a.other_side, a.sort, a.away) < std::tuple(b.other_side, b.sort, b.away); });
  if (all.size() > kMostLikely) all.resize(kMostLikely);
  std::vector<Likeliest> out;
  for (const Near& each : all) out.push_back({{worn.row.id, SheetField::wear}, shown_like(each.limit.quantity.in_base(), each.limit)});
  return out;
}

/// A row that is a size, and its wear limit is another power of ten: both are figures of three digits at least, and agree within a fiftieth then.
std::optional<ProofFinding> in_another_unit(const Worn& worn) {
  const Ratio room = worn.low / Ratio(50);
  if (worn.low.sign() <= 0 || worn.high - worn.low > room || figures_of(worn.from) < 3 || figures_of(worn.wear) < 3) return std::nullopt;
  for (const UnitSlip& slip : unit_slips()) {
    const Ratio meant = worn.limit * slip.factor;
    const bool inside = worn.low < worn.high && worn.low <= meant && meant <= worn.high;
    if (meant < worn.low - room || meant > worn.high + room || inside) continue;
    RowInUnit as{worn.row, {SheetField::wear}};
    as.row.wear.in(worn.family) = in_unit(worn.wear, slip);
    ProofFinding out = row_unit_finding("wear-side", HowSure::odd, worn.row, worn.family, as, slip, {"proof.row_unit.wear", {figures("new", shown(worn.row.fresh))}});
    // Or what is new is the one that was.
    const auto back = std::find_if(unit_slips().begin(), unit_slips().end(), [&](const UnitSlip& each) { return each.factor * slip.factor == Ratio(1); });
    if (back == unit_slips().end()) return out;
    for (const SheetField field : printed_fields(worn.row, worn.family)) {
      if (field == SheetField::wear) continue;
      const TypedQuantity other = in_unit(*figure(worn.row, field).in(worn.family), *back);
      out.likeliest.push_back({{worn.row.id, field}, shown_like(other.quantity.in_base(), other)});
    }
    return out;
  }
  return std::nullopt;
}

std::optional<ProofFinding> wear_finding(const Worn& worn) {
  const std::vector<Argument> said{verbatim("what", worn.row.what), figures("wear", shown(worn.row.wear)), figures("new", shown(worn.row.fresh))};
  const auto finding = [&](std::string_view rule, HowSure sure, const char* key) { return ProofFinding{rule, sure, {{worn.row.id, SheetField::wear}}, {key, said}, near_limits(worn), {}}; };
  const auto key_of = [](WearSide side) { return side == WearSide::larger ? "proof.wear_side.below" : "proof.wear_side.above"; };
  if (worn.low < worn.limit && worn.limit < worn.high) return finding("wear-side", HowSure::certain, "proof.wear_side.inside");
  const bool wrong = is_against(worn.side, worn.limit, worn);
  if (auto unit = in_another_unit(worn)) {
    unit->sure = wrong ? HowSure::certain : HowSure::odd;
    return unit;
  }
  // A size of a kind, printed to the size of the part: its wear limit is near it, on the side to which the kind wears.
  if (is_near(worn) && is_against(worn.likely, worn.limit, worn)) return finding("wear-side", HowSure::odd, key_of(worn.likely));
  if (wrong) return finding("wear-side", HowSure::certain, key_of(worn.side));
  const bool at_end = (worn.limit == worn.low || worn.limit == worn.high) && !(worn.low == worn.high && worn.side == WearSide::unknown);
  if (at_end) return ProofFinding{"wear-at-new", HowSure::odd, {{worn.row.id, SheetField::wear}}, {"proof.wear_at_new", said}, {}, {}};
  if (!(worn.low < worn.high) || is_sane_wear(worn.from, worn.to, worn.wear)) return std::nullopt;
  // Nothing forbids it, but no part wears that far; it is asked about where one slip less brings it near.
  ProofFinding far = finding("wear-side", HowSure::odd, "proof.wear_side.far");
  return far.likeliest.empty() ? std::nullopt : std::optional(std::move(far));
}

void wear_of(ProofDesk& desk, const SidesByFit& fits, const SheetRow& row) {
  const Printed& from = row.fresh.from.empty() ? row.fresh.to : row.fresh.from;
  const Printed& to = row.fresh.to.empty() ? row.fresh.from : row.fresh.to;
  const auto family = common_family(row.wear, from);
  if (!family || !to.in(*family) || desk.is_asked({row.id, SheetField::wear})) return;
  Worn worn{row, *family, *from.in(*family), *to.in(*family), *row.wear.in(*family), {}, {}, {}, wear_side(desk, row), WearSide::unknown};
  worn.low = worn.from.quantity.in_base();
  worn.high = worn.to.quantity.in_base();
  worn.limit = worn.wear.quantity.in_base();
  if (worn.side == WearSide::unknown && is_size(worn)) worn.likely = likely_side(desk, fits, row);
  if (auto found = wear_finding(worn)) desk.ask(std::move(*found));
}

}  // namespace

double sane_wear_distance(const TypedQuantity& from, const TypedQuantity& to) {
  constexpr double kTolerances = 20.0;
  const double low = from.quantity.in_base().to_double();
  const double high = to.quantity.in_base().to_double();
  const bool size = low > 0.0 && high - low <= low / 100.0;
  const double places = 6.0 * std::max(half_a_step(from), half_a_step(to)).to_double();
  return kTolerances * std::max({high - low, places, size ? low / 4000.0 : std::abs(high) / 2.0});
}

bool is_sane_wear(const TypedQuantity& from, const TypedQuantity& to, const TypedQuantity& wear) {
  const double away = distance(from, to, wear);
  return away > 0.0 && away <= sane_wear_distance(from, to);
}

void find_wear_side(ProofDesk& desk) {
  const SidesByFit fits = sides_by_fit(desk);
  for (const SheetRow& row : desk.sheet.rows) {
    if (!row.wear.empty() && !row.fresh.empty() && !desk.is_new_asked(row.id)) wear_of(desk, fits, row);
  }
}

}  // namespace fettle
