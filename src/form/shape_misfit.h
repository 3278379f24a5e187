#pragma once

#include "form/shape_fit.h"

namespace fettle {

/// Tails below which something is looked into. From the honest alarm rates on simulated families, docs/NUMBERS.
inline constexpr double kSuspectReadingTail = 0.005;
inline constexpr double kStrangePartTail = 0.001;
inline constexpr double kMisfitGroupTail = 0.001;

/// Posterior predictive checks: how far each reading, each part and the whole group lie out, given everything else.
struct ShapeMisfit {
  std::vector<std::vector<double>> reading_tail;  ///< by block and row; 1 for a part with a single row in a group of one
  std::vector<std::vector<double>> expected;      ///< mean of the row given all others, µm
  std::vector<std::vector<double>> expected_sd;
  std::vector<double> part_tail;                  ///< by block, given the other parts; 1 in a group of one
  double group_tail;
};

[[nodiscard]] ShapeMisfit misfit(const std::vector<FittedNode>& nodes, const BlockGaussian& model);

}  // namespace fettle
