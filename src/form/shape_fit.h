#pragma once

#include <vector>

#include "form/shape_nodes.h"
#include "form/shape_prior.h"
#include "numeric/block_gaussian.h"

namespace fettle {

struct FittedNode {
  ShapeScales scales;
  double weight;  ///< posterior; the weights of a fit sum to 1
  GaussianPosterior posterior;
  std::size_t assumption = 0;  ///< which of the group's assumptions it rests on
};

/// The group's law after its readings: a mixture over the scales that the readings leave in play.
struct ShapeFit {
  std::vector<double> profile;    ///< by station, greatest 1; empty where every node has its own
  std::vector<FittedNode> nodes;  ///< heaviest first
  double log_evidence;            ///< ln of the readings' density under the prior
};

/// Two passes. The first finds the profile of the wear (group means are known far better than wear varies, so plugging it in is safe);
/// the second integrates over the scales with that profile. Nodes below 0.2 % of the weight are dropped. A pattern that is taken as it is
/// has its profile from the start. Needs at least one row. Source: shape trials in docs/NUMBERS; the integration over scales by marginal likelihood:
/// rasmussen2006 5.4.1. Kept by ShapeFitPeer.AgreesWithThePeer.
[[nodiscard]] ShapeFit fit_shape(const ShapeKnowledge& knowledge, BlockGaussian& model, ShapeFreedom freedom);

/// One pass with textbook profiles alone, for a pattern that learns its profile. A single part would teach `fit_shape` its own
/// mistakes as its profile: whether one of its readings stands out is asked of this. Needs at least one row.
[[nodiscard]] ShapeFit fit_textbook(const ShapeKnowledge& knowledge, BlockGaussian& model, ShapeFreedom freedom);

}  // namespace fettle
