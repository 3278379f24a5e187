#include "form/shape_group.h"

#include <algorithm>
#include <cmath>

namespace fettle {

std::optional<std::size_t> block_of(const ShapeGroup& group, const std::string& part) {
  const auto found = std::find(group.parts.begin(), group.parts.end(), part);
  if (found == group.parts.end()) return std::nullopt;
  return static_cast<std::size_t>(found - group.parts.begin());
}

SumPosterior sum_posterior(const ShapeGroup& group, std::size_t block, const CellSum& sum) {
  double mean = 0.0;
  double square = 0.0;
  for (const MixtureNode& node : group.mixture) {
    const SumMoments here = moments_of(sum, node.blocks[block]);
    mean += node.weight * here.mean;
    square += node.weight * (here.mean * here.mean + here.variance);
  }
  return {mean, std::sqrt(std::max(square - mean * mean, 0.0))};
}

PlacePosterior place_posterior(const ShapeGroup& group, std::size_t block, std::size_t cell) {
  const SumPosterior posterior = sum_posterior(group, block, {{{cell, 1.0}}});
  return {group.origin.to_mm(posterior.mean), posterior.sd / 1000.0};
}

}  // namespace fettle
