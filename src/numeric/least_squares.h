#pragma once

#include <optional>
#include <vector>

#include "base/result.h"

namespace fettle {

/// A cylinder's section as seen by a two-point gauge: D(t) = mean + cosine cos 2t + sine sin 2t, t the direction of the
/// gauge.
struct TwoLobeFit {
  double mean;     ///< m, unit of the sizes
  double cosine;   ///< a, unit of the sizes
  double sine;     ///< b, unit of the sizes
  double ovality;  ///< largest minus smallest fitted size, 2 sqrt(a^2 + b^2), unit of the sizes
  std::optional<double> direction_degrees;  ///< where the fitted size is largest, in [0, 180); none if the ovality is 0
  std::vector<double> residuals;            ///< size minus fit, in the order given, unit of the sizes
  int degrees_of_freedom;                   ///< directions minus 3
  /// How much larger than one size's standard error the ovality's may be, whatever its direction. 1.41 for four
  /// directions 45 degrees apart; large where the directions hardly determine the oval.
  double ovality_gain;
};

/// Fits the two-lobe section by least squares, all sizes weighing the same.
/// Units: angles in degrees, sizes in any one unit of length, answers in that unit.
/// Needs finite sizes, angles within half a million degrees, as many angles as sizes (else InternalError), at least
/// three sizes (else the problem numeric.two_lobe_too_few {given}) and directions that determine the oval (else
/// numeric.two_lobe_undetermined {given}: 0, 90 and 180 degrees do not, nor do directions within about 0.1 degrees).
/// Error: the coefficients are within 1e-15 of the largest size times the square of ovality_gain.
/// Source: gauss1823 (normal equations, centred); three and five lobes are unseen by any two-point gauge.
/// Kept by TwoLobe.AgreesWithTheWiderType and TwoLobe.FourAxesGiveTheWholeOval.
[[nodiscard]] Result<TwoLobeFit> fit_two_lobe(const std::vector<double>& angles_degrees,
                                              const std::vector<double>& sizes);

}  // namespace fettle
