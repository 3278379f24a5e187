#pragma once

#include <span>

namespace fettle {

/// Mean and variance of one size from several readings of it, each rounded to a grid.
struct RoundedMean {
  double mean;
  double variance;
};

/// The size behind repeats on a coarse scale: the likelihood is a product of Φ((y+s/2−D)/u) − Φ((y−s/2−D)/u); its mean and variance
/// stand for one Gaussian reading. Dividing the rounding's s²/12 by the number of repeats is wrong where u < s/2: repeats that all show
/// the same division say little more than one. `repeat_sd` > 0, `step` > 0, at least one reading, all in one unit. Source: trials in
/// docs/NUMBERS ("Repeats on a coarse scale"). Kept by RoundedRepeats.*.
[[nodiscard]] RoundedMean rounded_mean(std::span<const double> readings, double repeat_sd, double step);

}  // namespace fettle
