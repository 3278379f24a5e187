#pragma once

#include "units/length.h"

namespace fettle {

/// Growth of a length from 20 °C to `temperature`: L·α·(T − 20), exact, in counts of 0.1 nm. Reference key iso1, nist_expansion.
[[nodiscard]] inline Ratio thermal_growth(const Ratio& length_counts, const Ratio& expansion_per_celsius,
                                          const Ratio& temperature_celsius) {
  return length_counts * expansion_per_celsius * (temperature_celsius - Ratio(20));
}

}  // namespace fettle
