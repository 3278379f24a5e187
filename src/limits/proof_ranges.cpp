#include <algorithm>
#include <array>
#include <map>

#include "limits/proof_desk.h"
#include "limits/proof_range_mender.h"
#include "limits/proof_row_unit.h"

namespace fettle {
namespace {

const Ratio value_in(const Printed& figure, UnitFamily family) { return figure.in(family)->quantity.in_base(); }

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

using Rows = ProofDesk::Rows;

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

/// Two rows of one thing, the one in another unit than the other: which of them, nothing says.
bool two_in_two_units(ProofDesk& desk, const SheetRow& first, const SheetRow& second) {
  const auto family = common_family(first.fresh.from, second.fresh.from);
  if (!family || desk.is_new_asked(first.id) || desk.is_new_asked(second.id)) return false;
  for (const UnitSlip& slip : unit_slips()) {
    RowInUnit meant = row_in_unit(second, *family, slip);
    if (!same_new(first, meant.row)) continue;
    ProofFinding finding = row_unit_finding("two-figures", second.kind.empty() ? HowSure::odd : HowSure::certain, second, *family, meant, slip, {"proof.row_unit.like", {figures("like", shown(first.fresh))}});
    for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to}) {
      const auto& other = figure(second, field).in(*family);
      if (!other || (field == SheetField::fresh_to && second.fresh.from == second.fresh.to)) continue;
      finding.likeliest.push_back({{first.id, field}, shown_like(other->quantity.in_base(), *other)});
    }
    desk.ask(std::move(finding));
    return true;
  }
  return false;
}

/// The size of a part: a range within a hundredth of itself, of three digits at least.
bool is_size(const SheetRow& row) {
  const auto range = range_of(row);
  if (!range || range->low.sign() <= 0 || range->high < range->low) return false;
  const TypedQuantity& from = *row.fresh.from.in(range->family);
  return from.quantity.dimension() == Dimension::length && from.quantity.value >= last_place(from) * Ratio(100) && (range->high - range->low) * Ratio(100) <= range->low;
}

bool within_part(const Ratio& a, const Ratio& b, int part) { return absolute(a - b) * Ratio(part) <= absolute(b); }

/// The other sizes of its kind are alike, and this one is with them in another unit only: two of them at least, and most of all.
void unlike_its_kind(ProofDesk& desk, const SheetRow& row, const Rows& rows) {
  constexpr std::size_t kMost = 32;
  const auto own = range_of(row);
  std::vector<Ratio> others;
  const SheetRow* like = nullptr;
  for (std::size_t i = 0; i < rows.size(); i += 1 + rows.size() / kMost) {
    const auto other = range_of(*rows[i]);
    if (rows[i] == &row || !other || other->family != own->family) continue;
    if (within_part(own->low, other->low, 4)) return;
    others.push_back(other->low);
    like = rows[i];
  }
  if (others.size() < 2) return;
  for (const UnitSlip& slip : unit_slips()) {
    const auto alike = std::count_if(others.begin(), others.end(), [&](const Ratio& each) { return within_part(own->low * slip.factor, each, 50); });
    if (alike < 2 || static_cast<std::size_t>(alike) * 2 <= others.size()) continue;
    desk.ask(row_unit_finding("two-figures", HowSure::odd, row, own->family, row_in_unit(row, own->family, slip), slip, {"proof.row_unit.kind", {figures("like", shown(like->fresh))}}));
    return;
  }
}

/// "page 12", or the line where no page is said.
Message place_of(const SheetRow& row) {
  if (!row.page.empty()) return {"proof.page", {verbatim("page", row.page)}};
  return {"proof.line", {count("line", row.place.line.value_or(0))}};
}

}  // namespace

void find_range_backwards(ProofDesk& desk) {
  UsualWidths widths(desk);
  for (const SheetRow& row : desk.sheet.rows) {
    const auto range = range_of(row);
    if (!range || range->low <= range->high || desk.is_new_asked(row.id)) continue;
    ProofFinding finding{"range-backwards", HowSure::certain, {{row.id, SheetField::fresh_to}, {row.id, SheetField::fresh_from}}, {}, {}, {}};
    finding.arithmetic = {"proof.range_backwards", {verbatim("what", row.what), figures("from", shown(row.fresh.from)), figures("to", shown(row.fresh.to))}};
    finding.likeliest = mended_range(desk, row, range->family, widths);
    desk.ask(std::move(finding));
  }
}

void find_unlike_its_kind(ProofDesk& desk) {
  std::map<std::vector<std::string>, Rows> groups;
  for (const SheetRow& row : desk.sheet.rows) {
    if (!is_size(row) || !row.choose.empty()) continue;
    groups[row.kind.empty() ? std::vector<std::string>{row.what} : std::vector<std::string>{row.kind, characteristic_of(row)}].push_back(&row);
  }
  for (const auto& [name, rows] : groups) {
    for (const SheetRow* row : rows) {
      if (rows.size() > 2 && !desk.is_new_asked(row->id)) unlike_its_kind(desk, *row, rows);
    }
  }
}

void find_two_figures(ProofDesk& desk) {
  std::map<std::vector<std::string>, const SheetRow*> first;
  for (const SheetRow& row : desk.sheet.rows) {
    if (!row.choose.empty()) continue;
    // "Clearance" of two fits is two things: they follow from different rows.
    const std::vector<std::string> thing{row.what, row.kind, characteristic_of(row), shown(row.step), row.grade, shown(row.per), row.from};
    const auto [there, fresh] = first.emplace(thing, &row);
    if (fresh || same_figures(*there->second, row)) continue;
    if (two_in_two_units(desk, *there->second, row)) continue;
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
  UsualWidths all_widths(desk);
  for (const SheetRow& row : desk.sheet.rows) {
    const auto range = range_of(row);
    if (!range || range->high <= range->low || !row.from.empty() || !row.choose.empty() || desk.is_new_asked(row.id)) continue;
    const TypedQuantity& from = *row.fresh.from.in(range->family);
    const TypedQuantity& to = *row.fresh.to.in(range->family);
    const Ratio width = range->high - range->low;
    // A size printed to its last hundredths, with a range wider than a fiftieth of it, is nothing that anybody makes.
    const bool fine = from.decimals >= 2 && to.decimals >= 2 && range->low > width;
    if (from.quantity.dimension() != Dimension::length || !fine || width < usual * Ratio(20) || width * Ratio(100) < range->high * Ratio(2)) continue;
    std::vector<Likeliest> likeliest = mended_range(desk, row, range->family, all_widths, usual.to_double());
    if (likeliest.empty()) continue;
    desk.ask({"width-odd", HowSure::odd, {{row.id, SheetField::fresh_to}, {row.id, SheetField::fresh_from}},
              {"proof.width_odd", {verbatim("what", row.what), figures("printed", shown(row.fresh)), figures("width", shown_like(width, to)), figures("usual", shown_like(usual, to))}}, likeliest, {}});
  }
}

}  // namespace fettle
