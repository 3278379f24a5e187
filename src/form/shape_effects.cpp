#include "form/shape_effects.h"

#include <algorithm>
#include <map>

namespace fettle {
namespace {

double sd_um(const ErrorTerm& term, const std::vector<ErrorSource>& sources, double sign) {
  return sign * term.coefficient * sources[term.source].standard_uncertainty * 1000.0;
}

}  // namespace

ShapeEffects::ShapeEffects(const ShapeGroup& group)
    : group_(group), model_(group.assumptions[group.nodes.front().assumption].model),
      law_(ShapePrior(group.knowledge).law(group.nodes.front().scales, group.assumptions[group.nodes.front().assumption].profile)),
      mean_(group.sources.size(), 0.0) {
  (void)model_.log_likelihood(law_);
  const auto& weighed = group.nodes.front().posterior.weighed;
  for (std::size_t b = 0; b < weighed.size(); ++b) {
    for (std::size_t i = 0; i < weighed[b].size(); ++i) {
      for (const ErrorTerm& term : group.rows.rows[b][i].terms) {
        mean_[term.source] += sd_um(term, group_.sources, group.origin.sign) * weighed[b][i];
      }
    }
  }
}

SumEffects ShapeEffects::of(std::size_t block, const CellSum& sum) {
  std::vector<double> combination(law_.cells, 0.0);
  for (const auto& [cell, coefficient] : sum.terms) combination[cell] += coefficient;
  const auto weights = model_.reading_weights(law_, block, combination);
  // Error of the estimate: Σ weights · (errors of the rows) + what the readings do not show. Sources gather over all rows first.
  std::vector<double> by_source(group_.sources.size(), 0.0);
  for (std::size_t b = 0; b < weights.size(); ++b) {
    for (std::size_t i = 0; i < weights[b].size(); ++i) {
      for (const ErrorTerm& term : group_.rows.rows[b][i].terms) {
        by_source[term.source] += weights[b][i] * sd_um(term, group_.sources, group_.origin.sign);
      }
    }
  }
  SumEffects out{{}, 0.0, shared_shift(block, sum)};
  double told = 0.0;
  for (std::size_t source = 0; source < by_source.size(); ++source) {
    const double variance = by_source[source] * by_source[source];
    if (variance > 0.0) out.by_source.emplace_back(source, variance);
    told += variance;
  }
  // Repeats on a coarse scale carry more noise than their terms say: it counts as what is not seen.
  out.unseen = std::max(moments_of(sum, group_.mixture.front().blocks[block]).variance - told, 0.0);
  return out;
}

/// The plain sum takes shared errors for nothing; the model has a mean for each.
double ShapeEffects::shared_shift(std::size_t block, const CellSum& sum) const {
  double shift = 0.0;
  for (const auto& [cell, coefficient] : sum.terms) {
    const auto& rows = group_.rows.rows[block];
    const auto row = std::find_if(rows.begin(), rows.end(), [&, at = cell](const ShapeRow& each) { return each.cell == at; });
    if (row == rows.end()) continue;
    for (const ErrorTerm& term : row->terms) {
      if (group_.sources[term.source].scope == ErrorScope::reading) continue;
      shift -= coefficient * sd_um(term, group_.sources, group_.origin.sign) * mean_[term.source];
    }
  }
  return shift;
}

}  // namespace fettle
