#include "form/shape_group.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/assertion.h"

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
    const BlockPosterior& here = node.blocks[block];
    const std::size_t cells = here.mean.size();
    const std::size_t common = here.gain.size() / cells;
    double value = 0.0;
    double variance = 0.0;
    std::vector<double> gain(common, 0.0);
    for (const auto& [cell, coefficient] : sum.terms) {
      value += coefficient * here.mean[cell];
      for (std::size_t e = 0; e < common; ++e) gain[e] += coefficient * here.gain[cell * common + e];
      for (const auto& [other, by] : sum.terms) variance += coefficient * by * here.own[cell * cells + other];
    }
    for (const double each : gain) variance += each * each;
    mean += node.weight * value;
    square += node.weight * (value * value + variance);
  }
  return {mean, std::sqrt(std::max(square - mean * mean, 0.0))};
}

PlacePosterior place_posterior(const ShapeGroup& group, std::size_t block, std::size_t cell) {
  const SumPosterior posterior = sum_posterior(group, block, {{{cell, 1.0}}});
  return {group.origin.to_mm(posterior.mean), posterior.sd / 1000.0};
}

SumEffects sum_effects(const ShapeGroup& group, std::size_t block, const CellSum& sum, const std::vector<ErrorSource>& sources) {
  const FittedNode& heaviest = group.nodes.front();
  const ShapeAssumption& assumption = group.assumptions[heaviest.assumption];
  const BlockPrior law = ShapePrior(group.knowledge).law(heaviest.scales, assumption.profile);
  std::vector<double> combination(law.cells, 0.0);
  for (const auto& [cell, coefficient] : sum.terms) combination[cell] += coefficient;
  BlockGaussian model = assumption.model;
  const auto weights = model.reading_weights(law, block, combination);
  // Error of the estimate: Σ weights · (errors of the rows) + what the readings do not show. Sources gather over all rows first.
  std::map<std::size_t, double> by_source;
  SumEffects out{{}, 0.0, 0.0};
  std::map<std::size_t, double> mean_of_source;
  for (std::size_t b = 0; b < weights.size(); ++b) {
    for (std::size_t i = 0; i < weights[b].size(); ++i) {
      for (const ErrorTerm& term : group.rows.rows[b][i].terms) {
        const double um = group.origin.sign * term.coefficient * sources[term.source].standard_uncertainty * 1000.0;
        by_source[term.source] += weights[b][i] * um;
        mean_of_source[term.source] += um * heaviest.posterior.weighed[b][i];
      }
    }
  }
  double told = 0.0;
  for (const auto& [source, effect] : by_source) {
    out.by_source.emplace_back(source, effect * effect);
    told += effect * effect;
  }
  // The rows of repeats on a coarse scale carry more noise than their terms say: it counts as what is not seen.
  const MixtureNode& node = group.mixture.front();
  const BlockPosterior& here = node.blocks[block];
  const std::size_t common = here.gain.size() / here.mean.size();
  double variance = 0.0;
  std::vector<double> gain(common, 0.0);
  for (const auto& [cell, coefficient] : sum.terms) {
    for (std::size_t e = 0; e < common; ++e) gain[e] += coefficient * here.gain[cell * common + e];
    for (const auto& [other, by] : sum.terms) variance += coefficient * by * here.own[cell * here.mean.size() + other];
  }
  for (const double each : gain) variance += each * each;
  // What the shared errors are taken for, seen through this sum: the plain value less the mean of those errors.
  std::map<std::size_t, double> face;  // by source: coefficient of the plain sum
  for (const auto& [cell, coefficient] : sum.terms) {
    const ShapeRow* row = nullptr;
    for (const ShapeRow& each : group.rows.rows[block]) {
      if (each.cell == cell) row = &each;
    }
    if (row == nullptr) continue;
    for (const ErrorTerm& term : row->terms) {
      if (sources[term.source].scope == ErrorScope::reading) continue;
      face[term.source] += coefficient * group.origin.sign * term.coefficient * sources[term.source].standard_uncertainty * 1000.0;
    }
  }
  for (const auto& [source, coefficient] : face) out.shared_shift -= coefficient * mean_of_source[source];
  return out;
}

}  // namespace fettle
