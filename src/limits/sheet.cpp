#include "limits/sheet.h"

#include <algorithm>

#include "base/assertion.h"

namespace fettle {

std::string_view field_name(SheetField field) {
  switch (field) {
    case SheetField::fresh_from: return "new-from";
    case SheetField::fresh_to: return "new-to";
    case SheetField::wear: return "wear";
    case SheetField::step: return "step";
    case SheetField::per: return "per";
    case SheetField::standard: return "standard";
    case SheetField::quantity: return "quantity";
    case SheetField::stages: return "stages";
    case SheetField::sequence: return "sequence";
  }
  return "";
}

const Printed& figure(const SheetRow& row, SheetField field) {
  switch (field) {
    case SheetField::fresh_from: return row.fresh.from;
    case SheetField::fresh_to: return row.fresh.to;
    case SheetField::wear: return row.wear;
    case SheetField::step: return row.step;
    case SheetField::per: return row.per;
    case SheetField::standard: return row.standard;
    case SheetField::quantity: return row.quantity;
    case SheetField::stages:
    case SheetField::sequence: break;
  }
  FETTLE_ASSERT(false, "no single figure: " + std::string(field_name(field)));
  return row.wear;
}

Printed& figure(SheetRow& row, SheetField field) { return const_cast<Printed&>(figure(std::as_const(row), field)); }

const SheetRow* LimitSheet::row(std::string_view id) const {
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const SheetRow& each) { return each.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

}  // namespace fettle
