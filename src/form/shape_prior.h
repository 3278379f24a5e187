#pragma once

#include <vector>

#include "form/shape_knowledge.h"
#include "form/shape_nodes.h"
#include "numeric/block_gaussian.h"

namespace fettle {

/// The Gaussian law of one part's places in a group, given the scales:
///   D(h, θ) = as made + a + a_i + R(h) + R_i(h) + [V(h) + V_i(h)]·cos 2θ + Q_i(h)·sin 2θ + e(h, θ)
/// with R, V common to the group (they learn what its wear looks like), R_i, V_i, Q_i the part's own, e the texture of the surface.
/// Lengths in µm. The figures and where they come from: docs/NUMBERS, "Shape model".
class ShapePrior {
 public:
  explicit ShapePrior(const ShapeKnowledge& knowledge);

  /// `textbook_wear` of the kind's pattern, by station.
  [[nodiscard]] std::vector<double> textbook_profile(double strokes) const;

  /// `profile` by station, greatest 1; a reference has none whatever stands there.
  [[nodiscard]] BlockPrior law(const ShapeScales& scales, const std::vector<double>& profile) const;

  /// Which shared column is the common as-made offset, and its sd: a = sd · ζ[column].
  [[nodiscard]] std::size_t as_made_column() const { return 2 * (stations_ + 1); }
  [[nodiscard]] double as_made_sd(bool loose) const;

 private:
  void add_shared(const ShapeScales& scales, const std::vector<double>& profile, BlockPrior& law) const;
  void add_own(const ShapeScales& scales, const std::vector<double>& profile, BlockPrior& law) const;

  const ShapeKnowledge knowledge_;
  std::size_t stations_;
  std::size_t directions_;
  std::vector<double> cosine_;  ///< cos 2θ by direction
  std::vector<double> sine_;
  std::vector<double> round_;         ///< K of 0.35 strokes, stations x stations
  std::vector<double> oval_;          ///< K of 0.5
  std::vector<double> smooth_;        ///< K of 0.4
  std::vector<double> round_factor_;  ///< lower triangular factors of the first two
  std::vector<double> oval_factor_;
};

}  // namespace fettle
