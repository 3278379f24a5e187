#include <algorithm>
#include <cmath>

#include "limits/proof_reckoner.h"
#include "limits/proof_row_unit.h"
#include "limits/proof_witness.h"

namespace fettle {
namespace {

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
std::vector<Message> fed_with(const ProofDesk& desk, const SheetExpression& expression, UnitFamily family) {
  std::vector<Message> out;
  for (const std::string& name : expression.names()) {
    const SheetRow* row = desk.row(name);
    if (row != nullptr) out.push_back({"proof.figure_of", {verbatim("row", name), figures("text", shown_in(*row, family))}});
  }
  return out;
}

/// A part with one slip in both its ends, or in one of them, and how near the arithmetic comes then.
struct PartMended {
  FigureSpot spot;
  SlipSort sort;
  double left;  ///< what is still apart, the worse end
  std::string text;
  Heard heard;
};

class Mender {
 public:
  Mender(const ProofDesk& desk, const SheetRow& row, const SheetExpression& expression, UnitFamily family)
      : desk_(desk), expression_(expression), family_(family), reckoner_(desk, expression, family) {
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      const auto& printed = figure(row, field).in(family);
      printed_.push_back(printed ? std::optional(plain(*printed, family)) : std::nullopt);
    }
  }

  /// The nearest of each figure, the likeliest first; nothing where what follows is not printed in this unit.
  [[nodiscard]] std::vector<PartMended> all() {
    if (!printed_[0] && !printed_[1]) return {};
    for (const std::string& name : expression_.names()) {
      const SheetRow* part = desk_.row(name);
      if (part != nullptr) try_part(*part);
    }
    std::stable_sort(best_.begin(), best_.end(), [](const PartMended& a, const PartMended& b) {
      if (std::abs(a.left - b.left) > kAlike) return a.left < b.left;
      return a.heard != b.heard ? a.heard < b.heard : a.sort < b.sort;
    });
    return std::move(best_);
  }

 private:
  static constexpr double kAlike = 1e-9;

  void try_part(const SheetRow& part) {
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      // What is printed in the other unit only slips there.
      const UnitFamily own = figure(part, field).in(family_) ? family_ : other_family(family_);
      const auto& printed = figure(part, field).in(own);
      const bool single = part.fresh.from == part.fresh.to;
      if (!printed || (single && field == SheetField::fresh_to)) continue;
      std::optional<PartMended> best;
      for (const Slip& slip : slips_of(digits_of(*printed))) {
        const SheetRow one = with_figure(part, field, own, with_digits(*printed, slip.digits));
        const auto& second = one.fresh.to.in(own);
        if (field == SheetField::fresh_from && second && !single) {
          const std::string other = same_slip(slip, digits_of(*second));
          if (!other.empty()) try_row(with_figure(one, SheetField::fresh_to, own, with_digits(*second, other)), {part.id, field}, slip.sort, best);
        }
        try_row(one, {part.id, field}, slip.sort, best);
      }
      if (best) best_.push_back(std::move(*best));
    }
  }

  void try_row(const SheetRow& part, const FigureSpot& spot, SlipSort sort, std::optional<PartMended>& best) const {
    const auto ends = ends_of(part, family_);
    if (ends && plain(*ends->from, family_) > plain(*ends->to, family_)) return;
    const auto value = reckoner_.value_as(part);
    if (!value) return;
    double left = 0.0;
    if (printed_[0]) left = std::max(left, std::abs(*printed_[0] - value->low));
    if (printed_[1]) left = std::max(left, std::abs(*printed_[1] - value->high));
    const bool better = !best || left < best->left - kAlike || (left < best->left + kAlike && sort < best->sort);
    if (better) best = PartMended{spot, sort, left, shown_in(part, family_), hear(desk_, part)};
  }

  const ProofDesk& desk_;
  const SheetExpression& expression_;
  UnitFamily family_;
  Reckoner reckoner_;
  std::vector<std::optional<double>> printed_;  ///< from and to of the row that follows
  std::vector<PartMended> best_;
};

class RowCheck {
 public:
  RowCheck(ProofDesk& desk, const SheetRow& row, const SheetExpression& expression) : desk_(desk), row_(row), expression_(expression) {}

  void run() {
    const std::vector<std::string> names = expression_.names();
    // What hangs on a figure that is asked about already is reckoned once that is decided.
    if (std::any_of(names.begin(), names.end(), [&](const std::string& each) { return desk_.is_new_asked(each); })) return;
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      if (desk_.is_asked({row_.id, field})) continue;
      const EndJudged judged = judge_end(desk_, row_, expression_, field);
      if (judged.failed.empty()) continue;
      if (row_in_another_unit()) return;
      // In the unit in which the parts are printed.
      const FailedEnd& best = judged.failed.size() > 1 && !parts_are_in(judged.failed.front().family) ? judged.failed.back() : judged.failed.front();
      tell(best.check, best.family, judged.families == 2 && judged.failed.size() == 1);
      // The other end is the same trouble, or waits for it.
      return;
    }
  }

 private:
  [[nodiscard]] bool parts_are_in(UnitFamily family) const {
    const std::vector<std::string> names = expression_.names();
    return std::all_of(names.begin(), names.end(), [&](const std::string& each) {
      const SheetRow* part = desk_.row(each);
      return part != nullptr && (part->fresh.from.in(family) || part->fresh.to.in(family));
    });
  }

  /// The row, or one of its parts, was typed in another unit, and with that everything comes out in which it takes part.
  bool row_in_another_unit() {
    std::vector<const SheetRow*> rows{&row_};
    for (const std::string& name : expression_.names()) {
      if (const SheetRow* part = desk_.row(name)) rows.push_back(part);
    }
    std::optional<ProofFinding> found;
    for (const UnitFamily family : kUnitFamilies) {
      for (const SheetRow* each : rows) {
        for (const UnitSlip& slip : unit_slips()) {
          if (!comes_out_with(*each, family, slip)) continue;
          ProofFinding one = row_unit_finding("reckoned", HowSure::certain, *each, family, row_in_unit(*each, family, slip), slip, {"proof.row_unit.reckoned", {verbatim("row", row_.what), verbatim("how", row_.from)}});
          if (!found) {
            found = std::move(one);
          } else {
            found->likeliest.insert(found->likeliest.end(), one.likeliest.begin(), one.likeliest.end());
          }
        }
      }
    }
    if (!found) return false;
    desk_.ask(std::move(*found));
    return true;
  }

  [[nodiscard]] bool comes_out_with(const SheetRow& row, UnitFamily family, const UnitSlip& slip) const {
    const auto ends = ends_of(row, family);
    if (!ends || printed_fields(row, family).empty() || is_point_slip_only(row, family, slip)) return false;
    if (slip.length_only && ends->from->quantity.dimension() != Dimension::length) return false;
    const RowInUnit meant = row_in_unit(row, family, slip);
    if (meant.changed.empty() || plain(*ends->from, family) == 0.0) return false;
    if (!slip.length_only) {
      const Heard then = hear(desk_, meant.row);
      return then.against == 0 && then < hear(desk_, row);
    }
    return comes_out_by_an_inch(row, meant.row, family);
  }

  static constexpr double kOverRounding = 4.0;

  /// An inch leaves something to rounding; where rounding would nearly do without it, it says nothing.
  [[nodiscard]] bool comes_out_by_an_inch(const SheetRow& row, const SheetRow& meant, UnitFamily family) const {
    double off_now = 0.0;
    double room_then = 0.0;
    const auto comes_out = [&](const SheetRow& now, const SheetRow& then, const SheetExpression& expression) {
      for (const EndCheck& each : end_checks(now, Reckoner(desk_, expression, family), family)) off_now = std::max(off_now, std::abs(each.apart));
      const std::vector<EndCheck> ends = end_checks(then, Reckoner(desk_, expression, family, &meant), family);
      for (const EndCheck& each : ends) room_then = std::max(room_then, each.half + each.slack);
      return !ends.empty() && std::all_of(ends.begin(), ends.end(), [](const EndCheck& each) { return each.within_slack(); });
    };
    const SheetExpression* own = desk_.expression(row.id);
    const ProofDesk::Rows& followers = desk_.followers(row.id);
    const bool all = (own == nullptr || comes_out(row, meant, *own)) &&
                     std::all_of(followers.begin(), followers.end(), [&](const SheetRow* each) { return comes_out(*each, *each, *desk_.expression(each->id)); });
    return all && off_now > kOverRounding * room_then;
  }

  void tell(const EndCheck& end, UnitFamily family, bool drifted) {
    const FigureSpot spot{row_.id, end.field};
    const int decimals = decimals_for(end, family);
    const std::string right = shown_at(end.value, family, *end.printed, decimals);
    ProofFinding finding{drifted ? "double-rounding" : "reckoned", HowSure::certain, {spot}, {}, {}, {}};
    const auto exact = Reckoner(desk_, expression_, family).value();
    const bool single = exact->low == exact->high;
    const std::string reckoned =
        single ? shown_at(exact->low, family, *end.printed, decimals) : shown_at(exact->low, family, *end.printed, decimals) + " … " + shown_at(exact->high, family, *end.printed, decimals);
    finding.arithmetic = {drifted ? "proof.double_rounding" : "proof.reckoned",
                          {verbatim("how", row_.from), list("with", fed_with(desk_, expression_, family)), figures("reckoned", reckoned), figures("printed", shown(row_.fresh))}};
    finding.likeliest = {{spot, right}};
    if (!drifted) another(end, family, finding);
    desk_.ask(std::move(finding));
  }

  /// As fine as the other end, where this one lost its places.
  [[nodiscard]] int decimals_for(const EndCheck& end, UnitFamily family) const {
    int out = end.printed->decimals;
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      const auto& each = figure(row_, field).in(family);
      if (each) out = std::max(out, each->decimals);
    }
    return out;
  }

  /// Where a slip in a part explains it better than a slip in the figure itself, or as well.
  void another(const EndCheck& end, UnitFamily family, ProofFinding& finding) const {
    if (std::abs(end.apart + 1.0) < end.half + end.slack + 1e-9 && end.printed->quantity.dimension() == Dimension::count) {
      finding.arithmetic.key = "proof.reckoned.plus_one";
      return;
    }
    // The slip is a slip in the unit in which the book was made.
    std::vector<PartMended> parts;
    for (const UnitFamily each : {family, other_family(family)}) {
      std::vector<PartMended> found = Mender(desk_, row_, expression_, each).all();
      const double to_this = each == family ? 1.0 : scale_of(Dimension::length, family) / scale_of(Dimension::length, each);
      for (PartMended& part : found) part.left /= to_this;
      if (!found.empty() && (parts.empty() || found.front().left < parts.front().left)) parts = std::move(found);
    }
    if (parts.empty()) return;
    const PartMended& part = parts.front();
    const auto solves = [&](const PartMended& each) { return each.left <= end.half + 1e-9; };
    const bool sign = solves(part) && part.sort == SlipSort::sign;
    // Far off, and a part's slip brings it near: the part. Otherwise first the figure that does not follow.
    const bool far = part.left * 20.0 < std::abs(end.apart) && !is_one_slip(end, family) && !ends_alike(end);
    if (sign || far) finding.likeliest.insert(finding.likeliest.begin(), {part.spot, part.text});
    for (const PartMended& each : parts) {
      const bool there = (sign || far) && &each == &part;
      if (solves(each) && !there && finding.likeliest.size() <= kMostParts) finding.likeliest.push_back({each.spot, each.text});
    }
  }

  static constexpr std::size_t kMostParts = 4;

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
    if (const SheetExpression* expression = desk.expression(row.id)) RowCheck(desk, row, *expression).run();
  }
}

}  // namespace fettle
