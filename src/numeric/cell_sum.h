#pragma once

#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "numeric/block_gaussian.h"

namespace fettle {

/// A combination of the cells of one block.
struct CellSum {
  std::vector<std::pair<std::size_t, double>> terms;  ///< cell, coefficient
};

[[nodiscard]] double value_of(const CellSum& sum, std::span<const double> by_cell);

/// Covariance of two combinations under `covariance` (cells x cells).
[[nodiscard]] double covariance_of(const CellSum& a, const CellSum& b, std::span<const double> covariance, std::size_t cells);

/// What the combination takes from one of the common unknowns: `gain` is cells x common.
[[nodiscard]] double gain_of(const CellSum& sum, std::span<const double> gain, std::size_t common, std::size_t unknown);

/// Mean and variance of a combination of one block, everything that is not known counted.
struct SumMoments {
  double mean;
  double variance;
};
[[nodiscard]] SumMoments moments_of(const CellSum& sum, const BlockPosterior& block);

}  // namespace fettle
