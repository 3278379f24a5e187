#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "units/ratio.h"

namespace fettle {

/// Every dimension a reading can have.
enum class Dimension {
  length, angle, temperature, force, torque, pressure, volume, mass, time, count, divisions
};

enum class UnitId {
  // length; the base is 0.1 nm
  metre, centimetre, millimetre, micrometre, nanometre, inch, thou, inch_tenth, hundredth_mm, tenth_mm,
  // angle (base degree), temperature (base °C)
  degree, arc_minute, radian, celsius, fahrenheit, kelvin,
  // force (base N), torque (base N·m)
  newton, kilonewton, pound_force, kilogram_force, newton_metre, pound_foot, pound_inch, kilogram_metre,
  // pressure (base Pa)
  pascal, kilopascal, megapascal, bar, psi, kilogram_per_square_centimetre,
  // volume (base mm³)
  cubic_centimetre, litre, cubic_inch,
  // mass (base g)
  gram, kilogram, ounce, pound,
  // time (base s)
  second, minute, hour,
  // count, dial divisions
  piece, division
};

/// value in base = value · factor + offset, exactly.
struct Unit {
  UnitId id;
  Dimension dimension;
  std::string_view symbol;                   ///< as printed
  std::vector<std::string_view> spellings;   ///< as typed, besides the symbol; compared without case unless `case_matters`
  bool case_matters;
  Ratio factor;
  Ratio offset;
};

[[nodiscard]] const std::vector<Unit>& all_units();
[[nodiscard]] const Unit& unit_definition(UnitId id);
/// The unit a person means by `spelling`, or nothing. Words with two trade meanings ("tenths", "mil") are not in the table.
[[nodiscard]] const Unit* find_unit(std::string_view spelling);

/// "length": the word key of a dimension is "dimension." + this.
[[nodiscard]] std::string_view dimension_name(Dimension dimension);

}  // namespace fettle
