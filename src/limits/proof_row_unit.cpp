#include "limits/proof_row_unit.h"

#include <algorithm>
#include <array>

#include "limits/proof_wear.h"

namespace fettle {

const std::vector<UnitSlip>& unit_slips() {
  static const std::vector<UnitSlip> kSlips{
      {Ratio(10), "10", -1, false},
      {Ratio::of(1, 10), "0.1", 1, false},
      {Ratio(1000), "1000", -3, false},
      {Ratio::of(1, 1000), "0.001", 3, false},
      {Ratio(100), "100", -2, false},
      {Ratio::of(1, 100), "0.01", 2, false},
      {Ratio::of(254, 10), "25.4", -1, true},
      {Ratio::of(10, 254), "1 / 25.4", 1, true},
      {Ratio::of(254, 10000), "0.0254", 2, true},
  };
  return kSlips;
}

TypedQuantity in_unit(const TypedQuantity& figure, const UnitSlip& slip) {
  TypedQuantity out = figure;
  out.quantity.value = out.quantity.value * slip.factor;
  out.decimals = std::clamp(out.decimals + slip.decimals, 0, 9);
  out.text = out.quantity.value.decimal(out.decimals);
  return out;
}

std::vector<SheetField> printed_fields(const SheetRow& row, UnitFamily family) {
  std::vector<SheetField> out;
  for (const SheetField field : {SheetField::fresh_from, SheetField::fresh_to, SheetField::wear}) {
    const bool again = field == SheetField::fresh_to && row.fresh.from == row.fresh.to;
    if (figure(row, field).in(family) && !again) out.push_back(field);
  }
  return out;
}

RowInUnit row_in_unit(const SheetRow& row, UnitFamily family, const UnitSlip& slip) {
  RowInUnit out{row, {}};
  for (const SheetField field : printed_fields(row, family)) {
    if (field == SheetField::wear) continue;
    out.row = with_figure(out.row, field, family, in_unit(*figure(row, field).in(family), slip));
    out.changed.push_back(field);
  }
  const auto& from = out.row.fresh.from.in(family);
  const auto& to = out.row.fresh.to.in(family);
  const auto& wear = row.wear.in(family);
  if (!wear || !from || !to) return out;
  if (out.row.fresh.from == out.row.fresh.to || !is_sane_wear(*from, *to, *wear)) {
    out.row.wear.in(family) = in_unit(*wear, slip);
    out.changed.push_back(SheetField::wear);
  }
  return out;
}

ProofFinding row_unit_finding(std::string_view rule, HowSure sure, const SheetRow& row, UnitFamily family, const RowInUnit& meant, const UnitSlip& slip, Message why) {
  ProofFinding out{rule, sure, {}, {}, {}, {}};
  const auto has_changed = [&](SheetField field) { return std::find(meant.changed.begin(), meant.changed.end(), field) != meant.changed.end(); };
  const auto said = [&](const SheetRow& each) {
    const auto only = [&](const Printed& figure) {
      Printed one;
      one.in(family) = figure.in(family);
      return one;
    };
    std::string text;
    if (has_changed(SheetField::fresh_from) || has_changed(SheetField::fresh_to)) text = shown(PrintedRange{only(each.fresh.from), only(each.fresh.to)});
    if (has_changed(SheetField::wear)) text += (text.empty() ? "" : " / ") + shown(only(each.wear));
    return text;
  };
  for (const SheetField field : meant.changed) {
    out.spots.push_back({row.id, field});
    out.likeliest.push_back({{row.id, field}, shown_like(figure(meant.row, field).in(family)->quantity.in_base(), *figure(meant.row, field).in(family))});
  }
  out.arithmetic = {"proof.row_unit", {verbatim("what", row.what), figures("printed", said(row)), figures("factor", std::string(slip.shown)), figures("right", said(meant.row)), list("why", {std::move(why)})}};
  return out;
}

bool is_point_slip_only(const SheetRow& row, UnitFamily family, const UnitSlip& slip) {
  return printed_fields(row, family).size() < 2 && (slip.decimals == 1 || slip.decimals == -1 || slip.decimals == 2 || slip.decimals == -2) && !slip.length_only;
}

}  // namespace fettle
