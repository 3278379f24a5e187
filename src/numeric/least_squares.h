#pragma once

#include <vector>

#include "base/result.h"

namespace fettle {

/// D(θ) = mean + cosine·cos 2θ + sine·sin 2θ, least squares with equal weights.
struct TwoLobeFit {
  double mean;
  double cosine;
  double sine;
  double ovality;            ///< 2·√(cosine² + sine²): largest minus smallest of the fitted oval
  double direction_degrees;  ///< of the largest diameter, ½·atan2(sine, cosine), 0 to below 180
  std::vector<double> residuals;
  int degrees_of_freedom;    ///< directions − 3
};

/// Fits n ≥ 3 directions (degrees) and their sizes. Problem numeric.two_lobe_undetermined where the directions do not determine an
/// oval (fewer than three, or all on the axes of one oval). Error below 1e-12 of the sizes' spread. Vector K-06.
[[nodiscard]] Result<TwoLobeFit> fit_two_lobe(const std::vector<double>& angles_degrees, const std::vector<double>& sizes);

}  // namespace fettle
