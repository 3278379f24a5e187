#pragma once

#include "units/length.h"
#include "units/ratio.h"
#include "units/unit.h"

namespace fettle {

/// A value of any dimension: the figure in the unit it was typed in, exactly. Converted once, by an exact fraction.
struct Quantity {
  Ratio value;
  UnitId unit;

  [[nodiscard]] Dimension dimension() const { return unit_definition(unit).dimension; }
  /// In the dimension's base unit (length: counts of 0.1 nm; temperature: °C; pressure: Pa; volume: mm³; ...).
  [[nodiscard]] Ratio in_base() const {
    const Unit& definition = unit_definition(unit);
    return value * definition.factor + definition.offset;
  }
  bool operator==(const Quantity&) const = default;
};

/// The exact length, or nothing if the dimension is another or the value is no whole count of 0.1 nm in 64 bits.
[[nodiscard]] std::optional<Length> exact_length(const Quantity& quantity);

}  // namespace fettle
