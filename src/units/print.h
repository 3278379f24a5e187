#pragma once

#include <string>

#include "units/unit.h"

namespace fettle {

/// The one place where a computed figure loses digits: fixed notation with a point, never "-0.00", the same on every machine and in
/// every locale. Needs a finite value and 0 to 17 decimals.
[[nodiscard]] std::string print_fixed(double value, int decimals);

/// An estimate in mm, in a length unit with its fine decimals.
[[nodiscard]] std::string print_length(double millimetres, UnitId unit);

}  // namespace fettle
