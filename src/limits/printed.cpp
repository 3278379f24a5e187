#include "limits/printed.h"

#include <algorithm>
#include <vector>

#include "entry/characters.h"

namespace fettle {
namespace {

constexpr int kDecimalsForAFraction = 4;  // 1/64 in is 0.0156 in

}  // namespace

UnitFamily family_of(UnitId unit) {
  constexpr std::array kInch{UnitId::inch, UnitId::thou, UnitId::inch_tenth, UnitId::fahrenheit, UnitId::pound_force, UnitId::pound_foot,
                             UnitId::pound_inch, UnitId::psi, UnitId::cubic_inch, UnitId::ounce, UnitId::pound};
  return std::find(kInch.begin(), kInch.end(), unit) == kInch.end() ? UnitFamily::metric : UnitFamily::inch;
}

bool is_typed_fraction(const TypedQuantity& figure) {
  const std::vector<char32_t> points = code_points(figure.text);
  return std::any_of(points.begin(), points.end(), [](char32_t each) { return plain_form(each) == U'/' || is_fraction_sign(each); });
}

Ratio last_place(const TypedQuantity& figure) { return is_typed_fraction(figure) ? Ratio{} : Ratio::power_of_ten(-figure.decimals); }

Ratio half_a_step(const TypedQuantity& figure) { return last_place(figure) * unit_definition(figure.quantity.unit).factor / Ratio(2); }

std::string digits_of(const TypedQuantity& figure) {
  const Ratio& value = figure.quantity.value;
  if (!is_typed_fraction(figure) || value.is_whole()) return value.decimal(figure.decimals);
  const Ratio size = absolute(value);
  const Int128 whole = size.numerator() / size.denominator();
  const std::string part = to_text(size.numerator() % size.denominator()) + "/" + to_text(size.denominator());
  return (value.sign() < 0 ? "-" : "") + (whole == 0 ? part : to_text(whole) + "-" + part);
}

std::string digits_like(const Ratio& base, const TypedQuantity& like) {
  const Unit& unit = unit_definition(like.quantity.unit);
  return ((base - unit.offset) / unit.factor).decimal(is_typed_fraction(like) ? kDecimalsForAFraction : like.decimals);
}

}  // namespace fettle
