#pragma once

#include <cstddef>
#include <vector>

namespace fettle {

/// How the weights came about.
struct WeightsReport {
  std::vector<double> weights;  ///< sum 1
  bool optimal;                 ///< false: the covariance has no usable inverse, the weights are equal
};

/// Best linear unbiased weights V⁻¹1/(1ᵀV⁻¹1) for n observations of one quantity with covariance V (row by row, n·n, symmetric,
/// 1 ≤ n ≤ 64). Where V is singular to working accuracy: equal weights. Reference key aitken1935.
[[nodiscard]] WeightsReport best_linear_unbiased_weights(const std::vector<double>& covariance, std::size_t n);

}  // namespace fettle
