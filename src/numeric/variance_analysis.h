#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace fettle {

/// One line of an analysis of variance.
struct VarianceLine {
  double sum_of_squares;      ///< unit of the values squared
  double degrees_of_freedom;
  /// Needs degrees of freedom above 0, else InternalError.
  [[nodiscard]] double mean_square() const;
};

struct OneWayVariance {
  VarianceLine between;
  VarianceLine within;
  double usual_count;  ///< n₀ = (N − Σn²/N)/(k − 1), the count of each group where they are alike
};

/// Groups of any sizes. Needs two or more groups, none empty, one of them of two or more, all values finite, else InternalError.
/// Two passes over the differences to the first value, compensated, in the order given. Digits of F kept of NIST's certified sets: SiRstv 12
/// and more, SmLs01 13 and more, SmLs07 4 (its values have 13 digits in common; as doubles they hold no more). Source: searle1971 section
/// 6.2. Kept by tests/outside/statistics/strd_anova.txt.
[[nodiscard]] OneWayVariance one_way_variance(std::span<const std::vector<double>> groups);

/// As many values in every cell: value (row, column, repeat) = values[(row·columns + column)·repeats + repeat].
struct CrossedValues {
  std::size_t rows;
  std::size_t columns;
  std::size_t repeats;
  std::vector<double> values;
};

struct CrossedVariance {
  VarianceLine rows;
  VarianceLine columns;
  VarianceLine interaction;
  VarianceLine within;
};

/// Rows and columns crossed, with their interaction. Needs two or more of each, two or more repeats, finite values, as many as there have to
/// be, else InternalError. Relative error of each sum of squares as one_way_variance. Source: searle1971 section 9.5 (both at random).
/// Kept by tests/outside/statistics/crossed_study.txt and VarianceAnalysis.*.
[[nodiscard]] CrossedVariance crossed_variance(const CrossedValues& from);

}  // namespace fettle
