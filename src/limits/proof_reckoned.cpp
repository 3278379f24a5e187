#include <algorithm>
#include <cmath>

#include "limits/proof_desk.h"
#include "limits/sheet_expression.h"

namespace fettle {
namespace {

using Span = SheetExpression::Span;

/// Base units that one unit of this family is: counts in an inch, mm³ in a cubic inch.
double scale_of(Dimension dimension, UnitFamily family) {
  const bool inch = family == UnitFamily::inch;
  if (dimension == Dimension::length) return static_cast<double>(Length::kCountsPerMillimetre) * (inch ? 25.4 : 1.0);
  if (dimension == Dimension::volume) return inch ? 16387.064 : 1.0;
  return 1.0;
}

/// In mm or in, mm³ or in³; everything else in its base unit.
double plain(const TypedQuantity& figure, UnitFamily family) {
  const Dimension dimension = figure.quantity.dimension();
  return figure.quantity.in_base().to_double() / scale_of(dimension, family);
}
double plain_half(const TypedQuantity& figure, UnitFamily family) { return half_a_step(figure).to_double() / scale_of(figure.quantity.dimension(), family); }

/// A row's figures as the arithmetic takes them.
struct Ends {
  const TypedQuantity* from;
  const TypedQuantity* to;
};

std::optional<Ends> ends_of(const SheetRow& row, UnitFamily family) {
  const auto pick = [&](const Printed& own, const Printed& other) { return own.empty() ? other.preferring(family) : own.preferring(family); };
  const Ends out{pick(row.fresh.from, row.fresh.to), pick(row.fresh.to, row.fresh.from)};
  return out.from == nullptr ? std::nullopt : std::optional(out);
}

Span span_of(const Ends& ends, UnitFamily family, double more) {
  const double shift = more * plain_half(*ends.from, family);
  return {plain(*ends.from, family) + shift, plain(*ends.to, family) + more * plain_half(*ends.to, family), length_power(ends.from->quantity.dimension())};
}

/// One row that follows from others, in one family of units.
class Reckoner {
 public:
  Reckoner(const LimitSheet& sheet, const SheetExpression& expression, UnitFamily family) : sheet_(sheet), expression_(expression), family_(family) {}

  /// Nothing where a row has no figures.
  [[nodiscard]] std::optional<Span> value() const { return value_with({}, 0.0); }

  /// With the rounding of one row's figures, or with another row in its place.
  [[nodiscard]] std::optional<Span> value_with(const std::string& shifted, double halves, const SheetRow* instead = nullptr) const {
    bool known = true;
    const Span out = expression_.value([&](const std::string& name) -> Span {
      const SheetRow* row = instead != nullptr && instead->id == name ? instead : sheet_.row(name);
      const auto ends = row == nullptr ? std::nullopt : ends_of(*row, family_);
      if (!ends) {
        known = false;
        return {1.0, 1.0, 0};
      }
      return span_of(*ends, family_, name == shifted ? halves : 0.0);
    });
    const bool finite = std::isfinite(out.low) && std::isfinite(out.high);
    return known && finite ? std::optional(out) : std::nullopt;
  }

  /// How far rounding of the rows may have moved each end.
  [[nodiscard]] Span slack(const Span& exact) const {
    Span out{0.0, 0.0, 0};
    for (const std::string& name : expression_.names()) {
      const auto up = value_with(name, 1.0);
      if (!up) continue;
      out.low += std::abs(up->low - exact.low);
      out.high += std::abs(up->high - exact.high);
    }
    return out;
  }

 private:
  const LimitSheet& sheet_;
  const SheetExpression& expression_;
  UnitFamily family_;
};

/// What was reckoned at one end of a row, in the unit that is printed there.
struct EndCheck {
  SheetField field;
  const TypedQuantity* printed;
  double value;
  double slack;
  double apart;  ///< printed less reckoned
  double half;
  [[nodiscard]] bool exact() const { return std::abs(apart) <= half * (1 + 1e-9) + 1e-12; }
  [[nodiscard]] bool within_slack() const { return std::abs(apart) <= (half + slack) * (1 + 1e-9) + 1e-12; }
};

std::vector<EndCheck> checks(const SheetRow& row, const Reckoner& reckoner, UnitFamily family) {
  std::vector<EndCheck> out;
  const auto exact = reckoner.value();
  if (!exact) return out;
  const Span slack = reckoner.slack(*exact);
  const auto add = [&](SheetField field, double value, double room) {
    const auto& printed = figure(row, field).in(family);
    if (printed) out.push_back({field, &*printed, value, room, plain(*printed, family) - value, plain_half(*printed, family)});
  };
  const bool single = row.fresh.from == row.fresh.to;
  // One figure for all of it: it has to lie in what the parts give.
  if (single && exact->high > exact->low) {
    const auto& printed = row.fresh.from.in(family);
    if (!printed) return out;
    const double figure = plain(*printed, family);
    const double nearest = std::clamp(figure, exact->low, exact->high);
    add(SheetField::fresh_from, nearest, nearest == exact->low ? slack.low : slack.high);
    return out;
  }
  add(SheetField::fresh_from, exact->low, slack.low);
  if (!single) add(SheetField::fresh_to, exact->high, slack.high);
  return out;
}

Ratio to_base(double value, UnitFamily family, Dimension dimension) {
  return Ratio::of(static_cast<Int128>(std::llround(value * scale_of(dimension, family) * 1e4)), 10000);
}

std::string shown_at(double value, UnitFamily family, const TypedQuantity& like, int decimals) {
  TypedQuantity with = like;
  with.decimals = std::max(like.decimals, decimals);
  return shown_like(to_base(value, family, like.quantity.dimension()), with);
}

std::string shown_in(const SheetRow& row, UnitFamily family) {
  PrintedRange range;
  range.from.in(family) = row.fresh.from.in(family);
  range.to.in(family) = row.fresh.to.in(family);
  return shown(range.empty() ? row.fresh : range);
}

/// "hole 48.016…48.041 mm, shell ...": what the arithmetic was fed with.
std::vector<Message> fed_with(const LimitSheet& sheet, const SheetExpression& expression, UnitFamily family) {
  std::vector<Message> out;
  for (const std::string& name : expression.names()) {
    const SheetRow* row = sheet.row(name);
    if (row != nullptr) out.push_back({"proof.figure_of", {verbatim("row", name), figures("text", shown_in(*row, family))}});
  }
  return out;
}

/// A part with one slip in both its ends, or in one of them, that makes the arithmetic come out nearer than anything else.
struct PartMended {
  FigureSpot spot;
  SlipSort sort;
  double left;  ///< what is still apart, the worse end
  std::string text;
};

class Mender {
 public:
  Mender(const LimitSheet& sheet, const SheetRow& row, const SheetExpression& expression, UnitFamily family)
      : sheet_(sheet), row_(row), expression_(expression), family_(family), reckoner_(sheet, expression, family) {}

  [[nodiscard]] std::optional<PartMended> best() {
    for (const std::string& name : expression_.names()) {
      const SheetRow* part = sheet_.row(name);
      if (part != nullptr) try_part(*part);
    }
    return best_;
  }

 private:
  void try_part(const SheetRow& part) {
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      const auto& printed = figure(part, field).in(family_);
      if (!printed) continue;
      for (const Slip& slip : slips_of(digits_of(*printed))) {
        SheetRow one = part;
        figure(one, field).in(family_) = with_digits(*printed, slip.digits);
        const auto& second = one.fresh.to.in(family_);
        if (field == SheetField::fresh_from && part.fresh.from == part.fresh.to) one.fresh.to = one.fresh.from;
        if (field == SheetField::fresh_from && second && !(part.fresh.from == part.fresh.to)) {
          SheetRow both = one;
          const std::string other = same_slip(slip, digits_of(*second));
          if (!other.empty()) {
            both.fresh.to.in(family_) = with_digits(*second, other);
            try_row(both, {part.id, field}, slip.sort);
          }
        }
        try_row(one, {part.id, field}, slip.sort);
      }
    }
  }

  void try_row(const SheetRow& part, const FigureSpot& spot, SlipSort sort) {
    const auto ends = ends_of(part, family_);
    if (ends && plain(*ends->from, family_) > plain(*ends->to, family_)) return;
    const auto value = reckoner_.value_with({}, 0.0, &part);
    if (!value) return;
    double left = 0.0;
    for (const auto& [field, reckoned] : {std::pair{SheetField::fresh_from, value->low}, std::pair{SheetField::fresh_to, value->high}}) {
      const auto& printed = figure(row_, field).in(family_);
      if (printed) left = std::max(left, std::abs(plain(*printed, family_) - reckoned));
    }
    const bool better = !best_ || left < best_->left - 1e-9 || (left < best_->left + 1e-9 && sort < best_->sort);
    if (better) best_ = PartMended{spot, sort, left, shown_in(part, family_)};
  }

  const LimitSheet& sheet_;
  const SheetRow& row_;
  const SheetExpression& expression_;
  UnitFamily family_;
  Reckoner reckoner_;
  std::optional<PartMended> best_;
};

using Checked = std::vector<std::pair<UnitFamily, std::vector<EndCheck>>>;

class RowCheck {
 public:
  RowCheck(ProofDesk& desk, const SheetRow& row, const SheetExpression& expression) : desk_(desk), row_(row), expression_(expression) {}

  void run() {
    for (const std::string& name : expression_.names()) {
      // What hangs on a figure that is asked about already is reckoned once that is decided.
      if (desk_.is_asked({name, SheetField::fresh_from}) || desk_.is_asked({name, SheetField::fresh_to})) return;
    }
    Checked all;
    for (const UnitFamily family : kUnitFamilies) all.emplace_back(family, checks(row_, Reckoner(desk_.sheet, expression_, family), family));
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      if (desk_.is_asked({row_.id, field})) continue;
      if (judge(all, field)) return;
    }
  }

 private:
  /// True if it was told: the other end is the same trouble, or waits for it.
  bool judge(const Checked& all, SheetField field) {
    std::vector<std::pair<UnitFamily, const EndCheck*>> failing;
    std::size_t families = 0;
    for (const auto& [family, ends] : all) {
      if (desk_.sheet.original && *desk_.sheet.original != family && figure(row_, field).in(*desk_.sheet.original)) continue;
      for (const EndCheck& end : ends) {
        if (end.field != field) continue;
        ++families;
        // One unit in which it comes out is the one in which the book was made.
        if (end.exact()) return false;
        if (!may_be_converted(family) || !end.within_slack()) failing.emplace_back(family, &end);
      }
    }
    if (failing.empty()) return false;
    // In the unit in which the parts are printed.
    const auto& best = failing.size() > 1 && !parts_are_in(failing.front().first) ? failing.back() : failing.front();
    tell(*best.second, best.first, families == 2 && failing.size() == 1);
    return true;
  }

  [[nodiscard]] bool parts_are_in(UnitFamily family) const {
    const std::vector<std::string> names = expression_.names();
    return std::all_of(names.begin(), names.end(), [&](const std::string& each) {
      const SheetRow* part = desk_.sheet.row(each);
      return part != nullptr && (part->fresh.from.in(family) || part->fresh.to.in(family));
    });
  }

  /// Some figure of the row or of its parts may be the conversion of one in the other unit.
  [[nodiscard]] bool may_be_converted(UnitFamily family) const {
    if (desk_.sheet.original == family) return false;
    const auto converted = [&](const SheetRow& row) { return !row.fresh.from.in(family) || row.fresh.from.in_both() || row.fresh.to.in_both(); };
    const std::vector<std::string> names = expression_.names();
    return converted(row_) || std::any_of(names.begin(), names.end(), [&](const std::string& each) {
             const SheetRow* part = desk_.sheet.row(each);
             return part != nullptr && converted(*part);
           });
  }

  void tell(const EndCheck& end, UnitFamily family, bool drifted) {
    const FigureSpot spot{row_.id, end.field};
    const int decimals = end.printed->decimals;
    const std::string right = shown_at(end.value, family, *end.printed, decimals);
    ProofFinding finding{drifted ? "double-rounding" : "reckoned", HowSure::certain, {spot}, {}, {}, {}};
    const auto exact = Reckoner(desk_.sheet, expression_, family).value();
    const bool single = exact->low == exact->high;
    const std::string reckoned = single ? shown_at(exact->low, family, *end.printed, decimals)
                                        : shown_at(exact->low, family, *end.printed, decimals) + " … " + shown_at(exact->high, family, *end.printed, decimals);
    finding.arithmetic = {drifted ? "proof.double_rounding" : "proof.reckoned",
                          {verbatim("how", row_.from), list("with", fed_with(desk_.sheet, expression_, family)), figures("reckoned", reckoned), figures("printed", shown(row_.fresh))}};
    finding.likeliest = {{spot, right}};
    if (!drifted) another(end, family, finding);
    desk_.ask(std::move(finding));
  }

  /// Where a slip in a part explains it better than a slip in the figure itself.
  void another(const EndCheck& end, UnitFamily family, ProofFinding& finding) const {
    if (std::abs(end.apart + 1.0) < end.half + end.slack + 1e-9 && end.printed->quantity.dimension() == Dimension::count) {
      finding.arithmetic.key = "proof.reckoned.plus_one";
      return;
    }
    std::optional<PartMended> part;
    const double now = std::abs(end.apart);
    const double half = end.half;
    // The slip is a slip in the unit in which the book was made.
    for (const UnitFamily each : {family, other_family(family)}) {
      const auto found = Mender(desk_.sheet, row_, expression_, each).best();
      const double to_this = each == family ? 1.0 : scale_of(Dimension::length, family) / scale_of(Dimension::length, each);
      if (!found || (part && found->left / to_this >= part->left)) continue;
      part = found;
      part->left = found->left / to_this;
    }
    if (!part) return;
    const bool solves = part->left <= half + 1e-9;
    const bool sign = solves && part->sort == SlipSort::sign;
    // Far off, and a part's slip brings it near: the part. Otherwise first the figure that does not follow.
    const bool far = part->left * 20.0 < now && !is_one_slip(end, family) && !ends_alike(end);
    if (sign || far) {
      finding.likeliest.insert(finding.likeliest.begin(), {part->spot, part->text});
    } else if (solves) {
      finding.likeliest.push_back({part->spot, part->text});
    }
  }

  /// Off by a little of itself: it is the figure.
  static bool ends_alike(const EndCheck& end) { return std::abs(end.apart) < std::abs(end.value) * 0.5; }

  static bool is_one_slip(const EndCheck& end, UnitFamily family) {
    TypedQuantity meant = *end.printed;
    meant.quantity.value = to_base(end.value, family, meant.quantity.dimension()) / unit_definition(meant.quantity.unit).factor;
    const std::string digits = digits_of(meant);
    const std::vector<Slip> slips = slips_of(digits_of(*end.printed));
    return std::any_of(slips.begin(), slips.end(), [&](const Slip& each) { return each.digits == digits; });
  }

  ProofDesk& desk_;
  const SheetRow& row_;
  const SheetExpression& expression_;
};

}  // namespace

void find_reckoned(ProofDesk& desk) {
  for (const SheetRow& row : desk.sheet.rows) {
    if (row.from.empty()) continue;
    const auto expression = read_sheet_expression(row.from, row.place);
    if (expression.ok()) RowCheck(desk, row, expression.value()).run();
  }
}

}  // namespace fettle
