#include "numeric/mixture_chance.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "base/assertion.h"
#include "numeric/normal.h"
#include "numeric/polytope.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr std::size_t kSets = NormalPoints::kSets;
constexpr std::size_t kFirstPoints = 64;   // of each set, all nodes together ...
constexpr std::size_t kRoughPoints = 24;   // ... and where a rough figure is asked for
constexpr std::size_t kLeastOfNode = 2;    // points of one node in each set
constexpr double kRough = 0.004;
// The error is estimated from kSets numbers: half of what is asked for leaves room for that estimate's own error.
constexpr double kSafety = 0.5;

/// One node made ready: the blocks whose chance is not certain, and the product of those that are.
struct ReadyNode {
  double weight;
  double certain;
  std::vector<LineProblem> blocks;
  std::size_t common;
};

std::size_t share_of(double weight, std::size_t points) {
  const auto share = static_cast<std::size_t>(weight * static_cast<double>(points) + 0.5);
  return std::max(share, kLeastOfNode);
}

/// Vectors that are used over and over.
struct Workspace {
  std::vector<std::span<const double>> eta;
  std::vector<std::span<const double>> z;
  std::vector<double> product;
  std::vector<double> each;
  LineProblem::Workspace lines;
};

/// The average of the product of the blocks' chances over `count` points of one set.
double average(const ReadyNode& node, std::size_t set, std::size_t first, std::size_t count, NormalPoints& points, Workspace& work) {
  std::size_t dimension = 0;
  work.eta.clear();
  for (std::size_t c = 0; c < node.common; ++c) work.eta.push_back(points.coordinate(set, dimension++, first, count));
  work.product.assign(count, 1.0);
  work.each.resize(count);
  for (const LineProblem& block : node.blocks) {
    work.z.clear();
    for (std::size_t j = 0; j < block.dimensions(); ++j) work.z.push_back(points.coordinate(set, dimension++, first, count));
    block.along_lines(work.eta, work.z, work.each, work.lines);
    for (std::size_t p = 0; p < count; ++p) work.product[p] *= work.each[p];
  }
  return std::accumulate(work.product.begin(), work.product.end(), 0.0) / static_cast<double>(count);
}

/// Mean over the sets and its standard error from their spread.
Chance from_sets(const double (&by_set)[kSets], double certain, std::size_t used) {
  const double mean = std::accumulate(std::begin(by_set), std::end(by_set), 0.0) / static_cast<double>(kSets);
  double squares = 0.0;
  for (double each : by_set) squares += (each - mean) * (each - mean);
  const double error = std::sqrt(squares / static_cast<double>(kSets * (kSets - 1)));
  return {std::clamp(certain + mean, 0.0, 1.0), error, used};
}

Chance one_level(const std::vector<ReadyNode>& nodes, std::size_t per_set, NormalPoints& points) {
  double certain = 0.0;
  double by_set[kSets] = {};
  std::size_t used = 0;
  std::size_t first = 0;
  Workspace work;
  for (const ReadyNode& node : nodes) {
    if (node.blocks.empty()) {
      certain += node.weight * node.certain;
      continue;
    }
    const std::size_t count = share_of(node.weight, per_set);
    for (std::size_t set = 0; set < kSets; ++set) {
      by_set[set] += node.weight * node.certain * average(node, set, first, count, points, work);
    }
    first += count;
    used += kSets * count;
  }
  return from_sets(by_set, certain, used);
}

/// For a rough figure: not every node in every set, but nodes by their cumulated weight, evenly spread and shifted from set to set.
Chance rough_level(const std::vector<ReadyNode>& nodes, std::size_t per_set, NormalPoints& points) {
  double by_set[kSets] = {};
  std::size_t used = 0;
  Workspace work;
  for (std::size_t set = 0; set < kSets; ++set) {
    double cumulated = 0.0;
    std::size_t picked = 0;
    for (const ReadyNode& node : nodes) {
      cumulated += node.weight * static_cast<double>(per_set);
      const double shift = (static_cast<double>(set) + 0.5) / static_cast<double>(kSets);
      std::size_t count = 0;
      while (picked + count < per_set && static_cast<double>(picked + count) + shift < cumulated) ++count;
      if (count == 0) continue;
      const double chance = node.blocks.empty() ? 1.0 : average(node, set, picked, count, points, work);
      by_set[set] += static_cast<double>(count) / static_cast<double>(per_set) * node.certain * chance;
      picked += count;
      used += node.blocks.empty() ? 0 : count;
    }
  }
  return from_sets(by_set, 0.0, used);
}

Chance level_of(const std::vector<ReadyNode>& nodes, std::size_t per_set, NormalPoints& points) {
  return per_set < kFirstPoints ? rough_level(nodes, per_set, points) : one_level(nodes, per_set, points);
}

/// Adds points until the estimate of the error is small enough. `level(points of each set)` gives the chance.
template <class Level>
Chance integrate(const ChanceAccuracy& accuracy, const Level& level) {
  FETTLE_ASSERT(accuracy.standard_error > 0.0, "accuracy of a chance");
  std::size_t per_set = accuracy.standard_error < kRough ? kFirstPoints : kRoughPoints;
  Chance chance = level(per_set);
  while (chance.standard_error > kSafety * accuracy.standard_error) {
    if (2 * per_set * kSets > accuracy.most_points) break;
    // The error falls at least as the root of the number.
    const double ratio = chance.standard_error / (kSafety * accuracy.standard_error);
    per_set *= ratio > 3.0 ? 8 : ratio > 1.5 ? 4 : 2;
    per_set = std::min(per_set, accuracy.most_points / kSets);
    chance = level(per_set);
  }
  return chance;
}

/// Everything that is not known of a block in one covariance.
std::vector<double> whole_of(const BlockPosterior& block) {
  if (!block.whole.empty()) return block.whole;
  return whole_covariance(block.own, block.gain, block.mean.size(), block.gain.size() / block.mean.size());
}

void add_block(ReadyNode& node, LineProblem problem) {
  if (problem.certain()) {
    node.certain *= *problem.certain();
  } else {
    node.blocks.push_back(std::move(problem));
  }
}

std::size_t cells_of(const BlockPosterior& block) { return block.mean.size(); }
std::size_t common_of(const BlockPosterior& block) { return block.gain.size() / std::max<std::size_t>(block.mean.size(), 1); }

/// How many draws each node gets so that they add up to `count`: the largest remainders get the odd ones.
std::vector<std::size_t> split(const GaussianMixture& mixture, std::size_t count) {
  std::vector<std::size_t> out;
  std::vector<std::pair<double, std::size_t>> left;
  std::size_t given = 0;
  for (std::size_t n = 0; n < mixture.size(); ++n) {
    const double wanted = mixture[n].weight * static_cast<double>(count);
    out.push_back(static_cast<std::size_t>(wanted));
    given += out.back();
    left.emplace_back(static_cast<double>(out.back()) - wanted, n);
  }
  std::sort(left.begin(), left.end());
  for (std::size_t k = 0; k < left.size() && given < count; ++k, ++given) ++out[left[k].second];
  return out;
}

}  // namespace

Chance chance_of(const GaussianMixture& mixture, std::size_t block, const std::vector<Region>& regions,
                 const ChanceAccuracy& accuracy, NormalPoints& points) {
  std::vector<ReadyNode> nodes;
  for (const MixtureNode& node : mixture) {
    const BlockPosterior& here = node.blocks[block];
    ReadyNode ready{node.weight, 1.0, {}, 0};
    const std::vector<double> whole = whole_of(here);
    add_block(ready, LineProblem(here.mean, whole, {}, cells_of(here), 0, regions));
    nodes.push_back(std::move(ready));
  }
  return integrate(accuracy, [&](std::size_t per_set) { return level_of(nodes, per_set, points); });
}

namespace {

std::vector<ReadyNode> ready_for_joint(const GaussianMixture& mixture, const std::vector<std::vector<Region>>& regions) {
  std::vector<ReadyNode> nodes;
  for (const MixtureNode& node : mixture) {
    ReadyNode ready{node.weight, 1.0, {}, 0};
    for (std::size_t b = 0; b < regions.size(); ++b) {
      if (regions[b].empty()) continue;
      const BlockPosterior& here = node.blocks[b];
      ready.common = common_of(here);
      add_block(ready, LineProblem(here.mean, here.own, here.gain, cells_of(here), common_of(here), regions[b]));
    }
    if (ready.certain == 0.0) ready.blocks.clear();
    nodes.push_back(std::move(ready));
  }
  return nodes;
}

/// The node that a number between 0 and 1 falls on.
const ReadyNode& node_at(const std::vector<ReadyNode>& nodes, double place) {
  double sum = 0.0;
  for (const ReadyNode& node : nodes) {
    sum += node.weight;
    if (place < sum) return node;
  }
  return nodes.back();
}

/// The chance of one point: a node of each mixture, their last `alike` common draws the same.
double one_point(const std::vector<std::vector<ReadyNode>>& all, std::size_t alike, std::size_t set, std::size_t point,
                 NormalPoints& points, LineProblem::Workspace& work) {
  std::size_t dimension = alike;
  double product = 1.0;
  for (const std::vector<ReadyNode>& nodes : all) {
    const ReadyNode& node = node_at(nodes, normal_lower(points.coordinate(set, dimension++, point, 1)[0]));
    product *= node.certain;
    std::vector<std::span<const double>> eta;
    for (std::size_t c = 0; c < node.common; ++c) {
      const bool same = c + alike >= node.common;
      eta.push_back(points.coordinate(set, same ? node.common - 1 - c : dimension++, point, 1));
    }
    for (const LineProblem& block : node.blocks) {
      std::vector<std::span<const double>> z;
      for (std::size_t j = 0; j < block.dimensions(); ++j) z.push_back(points.coordinate(set, dimension++, point, 1));
      double each = 0.0;
      block.along_lines(eta, z, std::span(&each, 1), work);
      product *= each;
    }
    if (product == 0.0) break;
  }
  return product;
}

}  // namespace

Chance joint_chance(const GaussianMixture& mixture, const std::vector<std::vector<Region>>& regions,
                    const ChanceAccuracy& accuracy, NormalPoints& points) {
  const std::vector<ReadyNode> nodes = ready_for_joint(mixture, regions);
  return integrate(accuracy, [&](std::size_t per_set) { return level_of(nodes, per_set, points); });
}

Chance joint_chance(const std::vector<JointMixture>& mixtures, std::size_t alike, const ChanceAccuracy& accuracy,
                    NormalPoints& points) {
  if (mixtures.size() == 1) return joint_chance(*mixtures.front().mixture, mixtures.front().regions, accuracy, points);
  std::vector<std::vector<ReadyNode>> all;
  bool open = false;
  double certain = 1.0;
  for (const JointMixture& each : mixtures) {
    all.push_back(ready_for_joint(*each.mixture, each.regions));
    double sum = 0.0;
    for (const ReadyNode& node : all.back()) {
      open = open || !node.blocks.empty();
      sum += node.weight * node.certain;
    }
    certain *= sum;
  }
  if (!open) return {std::clamp(certain, 0.0, 1.0), 0.0, 0};
  return integrate(accuracy, [&](std::size_t per_set) {
    double by_set[kSets] = {};
    LineProblem::Workspace work;
    for (std::size_t set = 0; set < kSets; ++set) {
      for (std::size_t p = 0; p < per_set; ++p) by_set[set] += one_point(all, alike, set, p, points, work) / static_cast<double>(per_set);
    }
    return from_sets(by_set, 0.0, kSets * per_set);
  });
}

std::vector<std::vector<double>> mixture_draws(const GaussianMixture& mixture, std::size_t block, std::size_t count,
                                               NormalPoints& points) {
  const std::size_t cells = cells_of(mixture.front().blocks[block]);
  std::vector<std::vector<double>> out(cells, std::vector<double>(count));
  const std::vector<std::size_t> shares = split(mixture, count);
  std::size_t first = 0;
  for (std::size_t n = 0; n < mixture.size(); ++n) {
    if (shares[n] == 0) continue;
    const BlockPosterior& here = mixture[n].blocks[block];
    std::vector<double> factor = whole_of(here);
    const bool definite = factor_upper(factor, cells);
    FETTLE_ASSERT(definite, "posterior of a block");
    for (std::size_t c = 0; c < cells; ++c) {
      const std::span<double> draws = std::span(out[c]).subspan(first, shares[n]);
      std::fill(draws.begin(), draws.end(), here.mean[c]);
      for (std::size_t j = 0; j <= c; ++j) add_scaled(draws, factor[j * cells + c], points.coordinate(0, j, first, shares[n]));
    }
    first += shares[n];
  }
  return out;
}

}  // namespace fettle
