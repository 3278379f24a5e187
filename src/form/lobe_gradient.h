#pragma once

#include <vector>

#include "form/expansion.h"

namespace fettle {

/// The two-lobe fit of one station as linear in its sizes: a = Σ cosine_i·D_i, b = Σ sine_i·D_i; ovality 2·√(a² + b²).
struct LobeWeights {
  std::vector<double> cosine;
  std::vector<double> sine;
};
[[nodiscard]] LobeWeights lobe_weights(const LobeStation& lobe);

/// The ovality at `values` (mm, one for each direction of the lobe) and how it moves with each of them. Where the ovality is nil its
/// slope has no direction; the direction of the first axis is taken.
struct LobeGradient {
  double ovality;
  std::vector<double> by_direction;
};
[[nodiscard]] LobeGradient lobe_gradient(const LobeStation& lobe, const std::vector<double>& values);

}  // namespace fettle
