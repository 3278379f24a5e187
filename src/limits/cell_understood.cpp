#include "limits/cell_understood.h"

#include "limits/sheet_fit.h"

namespace fettle {
namespace {

std::string unit_behind(const TypedQuantity& figure) {
  return figure.quantity.dimension() == Dimension::count ? "" : " " + std::string(unit_definition(figure.quantity.unit).symbol);
}
std::string with_unit(const TypedQuantity& figure) { return digits_of(figure) + unit_behind(figure); }

Message side(const std::optional<TypedQuantity>& from, const std::optional<TypedQuantity>& to) {
  if (from && to) {
    if (*from == *to) return {"cell.one", {figures("figure", with_unit(*from))}};
    const bool alike = from->quantity.unit == to->quantity.unit;
    return {"cell.range", {figures("from", alike ? digits_of(*from) : with_unit(*from)), figures("to", with_unit(*to))}};
  }
  return from ? Message{"cell.over", {figures("figure", with_unit(*from))}} : Message{"cell.up_to", {figures("figure", with_unit(*to))}};
}

std::vector<Message> range(const PrintedRange& range) {
  std::vector<Message> out;
  for (const UnitFamily family : kUnitFamilies) {
    const auto& from = range.from.in(family);
    const auto& to = range.to.in(family);
    if (from || to) out.push_back(side(from, to));
  }
  return out;
}
/// One end of what is new, in a column of its own.
std::vector<Message> end(const char* key, const Printed& figure) {
  std::vector<Message> out;
  for (const UnitFamily family : kUnitFamilies) {
    if (const auto& each = figure.in(family)) out.push_back({key, {figures("figure", with_unit(*each))}});
  }
  return out;
}
std::vector<Message> single(const Printed& figure) { return range({figure, figure}); }

std::vector<Message> stages(const std::vector<PrintedRange>& all) {
  std::vector<Message> out;
  for (std::size_t i = 0; i < all.size(); ++i) out.push_back({"cell.stage", {count("n", static_cast<std::int64_t>(i + 1)), list("figures", range(all[i]))}});
  return out;
}

std::vector<Message> fit(const SheetRow& row) {
  const auto read = read_sheet_fit(row.fit, row.place);
  if (!read.ok()) return {};
  std::vector<Message> out;
  const auto add = [&](const char* key, Feature feature) {
    const PrintedRange sizes = fresh_by_fit(read.value(), feature);
    if (!sizes.empty()) out.push_back({key, {list("figures", range(sizes))}});
  };
  add("cell.hole", Feature::inside);
  add("cell.shaft", Feature::outside);
  add("cell.play", Feature::figure);
  return out;
}

}  // namespace

std::vector<Message> cell_understood(const SheetRow& row, SheetColumn column) {
  switch (column) {
    case SheetColumn::fresh: return range(row.fresh);
    case SheetColumn::fresh_min: return end("cell.from", row.fresh.from);
    case SheetColumn::fresh_max: return end("cell.to", row.fresh.to);
    case SheetColumn::wear: return range(wear_range(row));
    case SheetColumn::step: return single(row.step);
    case SheetColumn::per: return single(row.per);
    case SheetColumn::standard: return single(row.standard);
    case SheetColumn::quantity: return single(row.quantity);
    case SheetColumn::stages: return stages(row.stages);
    case SheetColumn::fit: return row.fit.empty() ? std::vector<Message>{} : fit(row);
    case SheetColumn::once: return row.once ? std::vector<Message>{{"cell.once", {}}} : std::vector<Message>{};
    case SheetColumn::id:
    case SheetColumn::what:
    case SheetColumn::kind:
    case SheetColumn::characteristic:
    case SheetColumn::definition:
    case SheetColumn::page:
    case SheetColumn::grade:
    case SheetColumn::sequence:
    case SheetColumn::from:
    case SheetColumn::choose:
    case SheetColumn::note: return {};
  }
  return {};
}

}  // namespace fettle
