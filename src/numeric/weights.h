#pragma once

#include <cstddef>
#include <optional>
#include <vector>

namespace fettle {

/// What the weights rest on.
enum class WeightsBasis {
  best,                 ///< the covariance has an inverse: the one best weighting
  best_of_several,      ///< no inverse, several weightings are equally good: the most even one of them
  equal_without_error,  ///< every error is 0: no reading is better than another, equal weights
  equal_not_covariance  ///< the matrix is not a covariance (a negative variance, not symmetric): equal weights, do not
                        ///< use
};

/// How a weighting ended. Look at `usable` before the numbers.
struct WeightsReport {
  std::vector<double> weights;  ///< one for each value, their sum is 1
  bool optimal;                 ///< true for best and best_of_several
  bool usable;                  ///< false only for equal_not_covariance
  WeightsBasis basis;
  std::optional<double> condition;  ///< greatest over least eigenvalue; none where the least is 0 to working accuracy
  double variance;                  ///< of the weighted mean, unit of the covariance; 0 if not usable
};

/// Best linear unbiased weights w = V^-1 1 / (1' V^-1 1) for n values of one quantity with covariance V.
/// Units: V in the square of the values' unit, row by row, n * n numbers; weights without unit.
/// Needs 1 <= n <= 64 and finite numbers, else InternalError. Singular V is answered with the least-norm weighting
/// among those of least variance; what is no covariance with equal weights and usable = false. Error: weights within
/// 1e-13 of their largest, times the condition. A direction whose variance is below 1e-13 of the greatest counts as
/// without error. Source: aitken1935. Kept by Weights.AgreeWithHandCalculation and Weights.NoOtherWeightingIsBetter.
[[nodiscard]] WeightsReport best_linear_unbiased_weights(const std::vector<double>& covariance, std::size_t n);

}  // namespace fettle
