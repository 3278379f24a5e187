#include "limits/printed.h"

#include <algorithm>

namespace fettle {

UnitFamily family_of(UnitId unit) {
  constexpr std::array kInch{UnitId::inch, UnitId::thou, UnitId::inch_tenth, UnitId::fahrenheit, UnitId::pound_force, UnitId::pound_foot,
                             UnitId::pound_inch, UnitId::psi, UnitId::cubic_inch, UnitId::ounce, UnitId::pound};
  return std::find(kInch.begin(), kInch.end(), unit) == kInch.end() ? UnitFamily::metric : UnitFamily::inch;
}

Ratio last_place(const TypedQuantity& figure) {
  const bool fraction = figure.text.find('/') != std::string::npos;
  return fraction ? Ratio{} : Ratio::power_of_ten(-figure.decimals);
}

Ratio half_a_step(const TypedQuantity& figure) { return last_place(figure) * unit_definition(figure.quantity.unit).factor / Ratio(2); }

std::string digits_of(const TypedQuantity& figure) { return figure.quantity.value.decimal(figure.decimals); }

std::string digits_like(const Ratio& base, const TypedQuantity& like) {
  const Unit& unit = unit_definition(like.quantity.unit);
  return ((base - unit.offset) / unit.factor).decimal(like.decimals);
}

}  // namespace fettle
