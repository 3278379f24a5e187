#pragma once

#include <array>
#include <optional>
#include <string>

#include "entry/typed_quantity.h"

namespace fettle {

/// The two families of units that books print side by side.
enum class UnitFamily { metric, inch };
inline constexpr std::array kUnitFamilies{UnitFamily::metric, UnitFamily::inch};

/// Inch, pound, °F and what is made of them; everything else is metric.
[[nodiscard]] UnitFamily family_of(UnitId unit);

[[nodiscard]] constexpr UnitFamily other_family(UnitFamily family) { return family == UnitFamily::metric ? UnitFamily::inch : UnitFamily::metric; }

/// One figure of a book's table as it is printed: in one unit, or in a metric and an inch unit side by side. Both are kept.
struct Printed {
  std::optional<TypedQuantity> metric;
  std::optional<TypedQuantity> inch;

  [[nodiscard]] bool empty() const { return !metric && !inch; }
  [[nodiscard]] bool in_both() const { return metric && inch; }
  [[nodiscard]] const std::optional<TypedQuantity>& in(UnitFamily family) const { return family == UnitFamily::metric ? metric : inch; }
  [[nodiscard]] std::optional<TypedQuantity>& in(UnitFamily family) { return family == UnitFamily::metric ? metric : inch; }
  /// The figure in this family, else the one in the other, else nothing.
  [[nodiscard]] const TypedQuantity* preferring(UnitFamily family) const {
    const auto& own = in(family) ? in(family) : in(other_family(family));
    return own ? &*own : nullptr;
  }
  bool operator==(const Printed&) const = default;
};

/// "1.0 to 1.2". One end may be missing ("over .036"). A single figure has the same at both ends.
struct PrintedRange {
  Printed from;
  Printed to;
  [[nodiscard]] bool empty() const { return from.empty() && to.empty(); }
  bool operator==(const PrintedRange&) const = default;
};

/// Typed as 2-1/32 or 5½, not with a decimal mark.
[[nodiscard]] bool is_typed_fraction(const TypedQuantity& figure);
/// One in the last place that is printed, in the unit that is printed. A fraction (2-1/32) is exact: 0.
[[nodiscard]] Ratio last_place(const TypedQuantity& figure);
/// Half of it in the dimension's base unit: how far rounding may have moved the figure.
[[nodiscard]] Ratio half_a_step(const TypedQuantity& figure);
/// The figure as plain digits with a point, with as many decimals as it was typed with, without its unit; a fraction as 2-1/32.
[[nodiscard]] std::string digits_of(const TypedQuantity& figure);
/// The value of `base` (in the base unit) in the unit and with the decimals of `like`, four if that is a fraction: digits with a point.
[[nodiscard]] std::string digits_like(const Ratio& base, const TypedQuantity& like);

}  // namespace fettle
