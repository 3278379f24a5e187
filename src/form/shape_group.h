#pragma once

#include <string>
#include <vector>

#include "form/shape_fit.h"
#include "form/shape_rows.h"
#include "numeric/mixture_chance.h"

namespace fettle {

/// A reading that does not fit the rest: kept and shown, to be taken again; it counts as far as it may still be none of the mistakes.
struct SuspectReading {
  std::vector<std::string> readings;  ///< event ids: one, or the repeats of one place under one setting
  std::string part;
  std::size_t cell;
  double tail;          ///< two-sided chance of lying this far out, given all others
  double shown_mm;
  double mistake;       ///< chance that it is a mistake
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

/// One way to take the readings of a group: some of them may be mistakes, or the parts may be unlike any wear that the model knows.
/// The estimate is the mixture of those that are in play, weighed by how well they foretell the readings.
struct ShapeAssumption {
  std::vector<std::pair<std::size_t, std::size_t>> mistaken;  ///< block and row of readings taken for mistakes
  ShapeFreedom freedom;
  std::vector<double> profile;  ///< by station, greatest 1
  BlockGaussian model;
  double weight;                ///< posterior
};

/// Like worn parts estimated together by the shape model.
struct ShapeGroup {
  std::vector<std::string> parts;      ///< by block of the mixture
  ShapeOrigin origin;
  ShapeKnowledge knowledge;
  std::vector<ShapeAssumption> assumptions;
  std::vector<FittedNode> nodes;       ///< of all assumptions, heaviest first
  GaussianMixture mixture;             ///< µm, by node
  ShapeRows rows;
  std::vector<ErrorSource> sources;    ///< that the rows' terms speak of
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

}  // namespace fettle
