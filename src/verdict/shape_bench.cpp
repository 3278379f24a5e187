#include "verdict/shape_bench.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "form/draw_evaluator.h"
#include "form/lobe_gradient.h"
#include "verdict/chance_region.h"
#include "verdict/place_values.h"

namespace fettle {
namespace {

constexpr double kLow = 0.05;
constexpr double kHigh = 0.95;

/// The form at `where` as a sum over µm; an amplitude is linearised at the plain estimate.
CellSum deciding_sum(const GroupQuestion& question, const Where& where) {
  const Expansion& expansion = question.plain.expansion;
  const ShapeOrigin& origin = question.group->origin;
  for (const LinearForm& form : expansion.forms) {
    if (form.where == where) return sum_of(form, expansion.dimension, origin);
  }
  if (!expansion.forms.empty()) return sum_of(expansion.forms.front(), expansion.dimension, origin);
  const auto at = std::find_if(expansion.lobes.begin(), expansion.lobes.end(), [&](const LobeStation& lobe) {
    return std::find(where.stations.begin(), where.stations.end(), lobe.station) != where.stations.end();
  });
  const LobeStation& lobe = at == expansion.lobes.end() ? expansion.lobes.front() : *at;
  std::vector<double> values;
  for (const std::size_t cell : lobe.cells) values.push_back(question.plain.part.places[cell]->estimate);
  const LobeGradient gradient = lobe_gradient(lobe, values);
  CellSum sum;
  for (std::size_t k = 0; k < lobe.cells.size(); ++k) {
    sum.terms.emplace_back(lobe.cells[k], gradient.by_direction[k] * origin.sign / 1000.0);
  }
  return sum;
}

double plain_value(const CellSum& sum, const GroupQuestion& question) {
  double value = 0.0;
  for (const auto& [cell, coefficient] : sum.terms) {
    value += coefficient * question.group->origin.to_um(question.plain.part.places[cell]->estimate);
  }
  return value;
}

/// The characteristic's form at `where` from the plain estimates, mm or ratio.
double plain_at(const GroupQuestion& question, const Where& where) {
  const Expansion& expansion = question.plain.expansion;
  std::vector<double> sizes(question.plain.part.places.size(), 0.0);
  for (const std::size_t cell : expansion.used) sizes[cell] = question.plain.part.places[cell]->estimate;
  for (const LinearForm& form : expansion.forms) {
    if (!(form.where == where)) continue;
    double value = constant_in_unit(form.constant, expansion.dimension);
    for (const Term& term : form.terms) {
      value += term.coefficient.to_double() * scale_to_counts(expansion.dimension) * sizes[term.cell];
    }
    return value;
  }
  return DrawEvaluator(expansion)(sizes);
}

/// The value below which a share of the draws lies: between neighbours in proportion.
double quantile(std::vector<double>& values, double share) {
  const double place = std::max(share * static_cast<double>(values.size()) - 0.5, 0.0);
  const auto below = std::min(static_cast<std::size_t>(place), values.size() - 2);
  const auto at = values.begin() + static_cast<std::ptrdiff_t>(below);
  std::nth_element(values.begin(), at, values.end());
  const double next = *std::min_element(at + 1, values.end());
  const double part = place - static_cast<double>(below);
  return *at + part * (next - *at);
}

/// Component by component, largest first.
std::vector<Share> shares_of(const SumEffects& effects, const std::vector<ErrorSource>& sources) {
  std::map<std::pair<std::string, ErrorScope>, double> by_component;
  double whole = effects.unseen;
  for (const auto& [source, variance] : effects.by_source) {
    by_component[{sources[source].component, sources[source].scope}] += variance;
    whole += variance;
  }
  std::vector<Share> out;
  if (whole <= 0.0) return out;
  for (const auto& [key, variance] : by_component) out.push_back({key.first, key.second, variance / whole});
  out.push_back({"unseen-shape", std::nullopt, effects.unseen / whole});
  std::stable_sort(out.begin(), out.end(), [](const Share& a, const Share& b) { return a.share > b.share; });
  return out;
}

}  // namespace

Chance ShapeBench::chance(const GroupQuestion& question) {
  const Region region = region_of(question.plain.expansion, question.plain.bound, question.plain.side, question.group->origin);
  return chance_of(question.group->mixture, question.block, {region}, wanted(), points_);
}

const ShapeBench::Draws& ShapeBench::draws_of(const ShapeGroup& group, std::size_t block) {
  const auto [found, fresh] = draws_.try_emplace({&group, block});
  if (fresh) {
    found->second = mixture_draws(group.mixture, block, accuracy_.best_draws, points_);
    for (std::vector<double>& cell : found->second) {
      for (double& each : cell) each = group.origin.to_mm(each);
    }
  }
  return found->second;
}

ShapeEffects& ShapeBench::effects_of(const GroupQuestion& question) {
  const auto found = effects_.find(question.group);
  if (found != effects_.end()) return found->second;
  return effects_.emplace(question.group, ShapeEffects(*question.group)).first->second;
}

ShapeBench::Unfolded ShapeBench::unfold(const GroupQuestion& question, const Chance& chance, const Where& where) {
  const Draws& draws = draws_of(*question.group, question.block);
  std::vector<const double*> by_cell;
  for (const std::vector<double>& cell : draws) by_cell.push_back(cell.data());
  std::vector<double> values(accuracy_.best_draws);
  DrawEvaluator(question.plain.expansion).evaluate_many(by_cell, values);
  BestEstimate best{plain_at(question, where), quantile(values, 0.5), quantile(values, kLow), quantile(values, kHigh), 0.0, 0.0};
  const bool at_most = question.plain.side == LimitSide::at_most;
  const bool keeps = chance.value >= 0.5;
  const double bound = question.plain.bound;
  const bool above = at_most != keeps;  // where the median has to lie
  const double least_above = std::nextafter(bound, bound + 1.0);
  const double most_below = std::nextafter(bound, bound - 1.0);
  if (above && !(best.median > bound)) best.median = at_most ? least_above : bound;
  if (!above && !(best.median < bound)) best.median = at_most ? bound : most_below;
  const CellSum sum = deciding_sum(question, where);
  const SumEffects effects = effects_of(question).of(question.block, sum);
  best.moved_by_errors = effects.shared_shift;
  best.moved_by_shape = sum_posterior(*question.group, question.block, sum).mean - plain_value(sum, question) - effects.shared_shift;
  return {best, shares_of(effects, question.group->sources)};
}

}  // namespace fettle
