#pragma once

#include <string>
#include <vector>

#include "form/shape_fit.h"
#include "form/shape_rows.h"
#include "numeric/mixture_chance.h"

namespace fettle {

/// A reading that does not fit the rest: kept, shown, left out of the model, to be taken again.
struct SuspectReading {
  std::vector<std::string> readings;  ///< event ids: one, or the repeats of one place under one setting
  std::string part;
  std::size_t cell;
  double tail;          ///< two-sided chance of lying this far out, given all others
  double shown_mm;
  double expected_mm;   ///< from all others
  double expected_sd_mm;
};

/// How much of a common shift the model lays to one cause. µm, positive in the direction of wear (a gauge that reads parts more worn than
/// they are).
struct ShiftCause {
  double stated_um;  ///< sd before any reading
  double mean_um;
  double sd_um;
};

/// Like worn parts estimated together by the shape model.
struct ShapeGroup {
  std::vector<std::string> parts;      ///< by block of the mixture
  ShapeOrigin origin;
  ShapeKnowledge knowledge;
  ShapeFreedom freedom;
  ShapeFit fit;
  GaussianMixture mixture;             ///< µm, by node of the fit
  ShapeRows rows;
  BlockGaussian model;
  std::vector<SuspectReading> suspects;
  double misfit_tail;                  ///< how often honest readings of such parts fit this badly
  double not_standard;                 ///< chance that the group does not stand at its standard size (0 where that is not asked)
  ShiftCause setting;                  ///< what gauges, masters and temperature add alike to every reading
  ShiftCause as_made;                  ///< the group's level against the middle of the tolerance
};

/// The block of a part; nothing if it is not in the group.
[[nodiscard]] std::optional<std::size_t> block_of(const ShapeGroup& group, const std::string& part);

/// Estimate of one place.
struct PlacePosterior {
  double mean_mm;
  double sd_mm;
};
[[nodiscard]] PlacePosterior place_posterior(const ShapeGroup& group, std::size_t block, std::size_t cell);

/// The posterior of Σ terms · x (µm) of one block: mean and sd over all nodes.
struct SumPosterior {
  double mean;
  double sd;
};
[[nodiscard]] SumPosterior sum_posterior(const ShapeGroup& group, std::size_t block, const CellSum& sum);

/// What one sum's doubt and estimate rest on, at the heaviest node.
struct SumEffects {
  std::vector<std::pair<std::size_t, double>> by_source;  ///< source, variance (µm²) that its error leaves in the estimate; readings too
  double unseen;        ///< variance of what no reading shows: texture and shape between what was read
  double shared_shift;  ///< µm that the errors common to several places move the estimate by, against taking them at face value
};
[[nodiscard]] SumEffects sum_effects(const ShapeGroup& group, std::size_t block, const CellSum& sum,
                                     const std::vector<ErrorSource>& sources);

}  // namespace fettle
