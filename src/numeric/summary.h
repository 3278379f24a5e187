#pragma once

#include <cstddef>
#include <optional>
#include <span>

namespace fettle {

struct Summary {
  std::size_t count;
  double mean;                  ///< unit of the values
  double standard_deviation;    ///< with count − 1 below; 0 for a single value
  std::optional<double> lag1;   ///< autocorrelation of neighbours; nothing where all values are alike
};

/// Mean, standard deviation and first autocorrelation of values in their order. Needs one or more finite values, else InternalError.
/// Two passes over the differences to the first value, sums compensated and taken in the given order; the second pass takes off what is left
/// of the mean. Digits kept of NIST's certified sets: NumAcc1 all, NumAcc3 9 of the standard deviation (as many as its decimals keep when
/// they become doubles), Mavro 13 and more. Source: chan1983. Kept by tests/outside/statistics/strd_univariate.txt.
[[nodiscard]] Summary summarize(std::span<const double> values);

/// What several groups say of one spread.
struct PooledSpread {
  double sum_of_squares = 0.0;
  double degrees_of_freedom = 0.0;
  void add(double squares, double degrees) {
    sum_of_squares += squares;
    degrees_of_freedom += degrees;
  }
  /// √(Σ SS / Σ ν). Needs degrees of freedom above 0, else InternalError.
  [[nodiscard]] double standard_deviation() const;
};

}  // namespace fettle
