#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "numeric/block_gaussian.h"
#include "numeric/cell_sum.h"
#include "numeric/normal_points.h"

namespace fettle {

/// Blocks that are jointly Gaussian given the node; a node with its weight is one setting of the scales.
struct MixtureNode {
  double weight;  ///< the weights of a mixture sum to 1
  std::vector<BlockPosterior> blocks;
};
using GaussianMixture = std::vector<MixtureNode>;

/// sum <= most
struct HalfSpace {
  CellSum sum;
  double most;
};
/// |(first, second)| <= radius
struct Disc {
  CellSum first;
  CellSum second;
  double radius;
};
/// All of these together, hence convex; or, with `outside`, the places where not all of them hold.
struct Region {
  std::vector<HalfSpace> half_spaces;
  std::vector<Disc> discs;
  bool outside;
};

struct Chance {
  double value;
  double standard_error;  ///< of the integration, from independently shifted point sets
  std::size_t points;
};

/// How good a chance has to be.
struct ChanceAccuracy {
  double standard_error;    ///< wanted; points are added until the estimate of the error is half of it
  std::size_t most_points;  ///< of one chance, all sets and nodes together; the error reached is told
  bool operator==(const ChanceAccuracy&) const = default;
};

/// The chance that block `block` lies in all `regions`. Along one line through each point (the direction of the bound that is nearest)
/// the chance is in closed form, as any line meets a convex region in one interval; the other directions are integrated over evenly
/// spread points, nodes by weight. Source: genz2009 section 4 (for the reduction by conditioning), niederreiter1992. Error: as told.
/// Kept by MixtureChance.AgreesWithPlainDraws.
[[nodiscard]] Chance chance_of(const GaussianMixture& mixture, std::size_t block, const std::vector<Region>& regions,
                               const ChanceAccuracy& accuracy, NormalPoints& points);

/// The chance that every block lies in all of its own regions: given what they share, blocks are independent, so each is integrated along
/// a line of its own. `regions` has one entry for each block; an empty one asks nothing.
[[nodiscard]] Chance joint_chance(const GaussianMixture& mixture, const std::vector<std::vector<Region>>& regions,
                                  const ChanceAccuracy& accuracy, NormalPoints& points);

/// Several mixtures, independent but for their last `alike` common unknowns, which are the same in all of them.
struct JointMixture {
  const GaussianMixture* mixture;
  std::vector<std::vector<Region>> regions;  ///< by block
};
/// The chance that every block of every mixture lies in its regions. One mixture: as above, nodes by weight. Several: nodes are drawn, one
/// of each mixture for each point.
[[nodiscard]] Chance joint_chance(const std::vector<JointMixture>& mixtures, std::size_t alike, const ChanceAccuracy& accuracy,
                                  NormalPoints& points);

/// `count` equally likely draws of block `block`, by cell.
[[nodiscard]] std::vector<std::vector<double>> mixture_draws(const GaussianMixture& mixture, std::size_t block, std::size_t count,
                                                             NormalPoints& points);

}  // namespace fettle
