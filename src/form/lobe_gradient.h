#pragma once

#include <vector>

#include "form/expansion.h"

namespace fettle {

/// The ovality of one station at `values` (mm, one for each direction of the lobe) and how it moves with each of them. Where the
/// ovality is nil its slope has no direction; that of the first axis is taken.
struct LobeGradient {
  double ovality;
  std::vector<double> by_direction;
};
[[nodiscard]] LobeGradient lobe_gradient(const LobeStation& lobe, const std::vector<double>& values);

}  // namespace fettle
