#include "form/shape_take.h"

#include <algorithm>
#include <cmath>

#include "form/shape_misfit.h"
#include "form/shape_screen.h"
#include "numeric/elementary.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr std::size_t kMostSuspects = 4;
constexpr double kMistake = 0.02;        // share of readings that hands get wrong: common practice, no source
constexpr double kUnlikeAnyWear = 0.02;  // share of groups that fit no wear the model knows
constexpr double kLeastAssumption = 0.002;

/// Everything the readings say under one way to take them.
struct Taken {
  ShapeAssumption assumption;
  ShapeFit fit;
  double log_weight;               ///< evidence and prior
  std::optional<ShapeFit> screen;  ///< what asks whether a reading stands out, where that is not the fit itself

  [[nodiscard]] const std::vector<FittedNode>& screening() const { return screen ? screen->nodes : fit.nodes; }
};

Taken take_as(const ShapeKnowledge& knowledge, const ShapeRows& rows, ShapeFreedom freedom, std::vector<RowPlace> mistaken,
              double log_prior) {
  BlockGaussian model(worth_little(rows.blocks, mistaken), rows.error_columns);
  ShapeFit fit = fit_shape(knowledge, model, freedom);
  std::optional<ShapeFit> screen;
  if (model.blocks() == 1 && learns_its_profile(knowledge.pattern)) screen = fit_textbook(knowledge, model, freedom);
  const double log_weight = (screen ? screen->log_evidence : fit.log_evidence) + log_prior;
  std::vector<double> profile = fit.profile;
  return {{std::move(mistaken), freedom, std::move(profile), std::move(model), 0.0}, std::move(fit), log_weight, std::move(screen)};
}

std::optional<RowPlace> stands_out(const ShapeMisfit& check, const std::vector<RowPlace>& known) {
  double worst = kSuspectReadingTail;
  std::optional<RowPlace> at;
  for (std::size_t b = 0; b < check.reading_tail.size(); ++b) {
    for (std::size_t k = 0; k < check.reading_tail[b].size(); ++k) {
      if (check.reading_tail[b][k] >= worst || std::find(known.begin(), known.end(), RowPlace(b, k)) != known.end()) continue;
      worst = check.reading_tail[b][k];
      at = {b, k};
    }
  }
  return at;
}

SuspectReading suspect_of(const ShapeRows& rows, const std::vector<std::string>& parts, const ShapeOrigin& origin, const RowPlace& at,
                          const ShapeMisfit& check) {
  const auto [b, k] = at;
  return {rows.rows[b][k].readings, parts[b], rows.rows[b][k].cell, check.reading_tail[b][k], origin.to_mm(rows.blocks[b].value[k]), 0.0,
          origin.to_mm(check.expected[b][k]), check.expected_sd[b][k] / 1000.0};
}

/// One mixture of all that is still in play.
void mix(std::vector<Taken> taken, ShapeGroup& group) {
  double best = -1e300;
  for (const Taken& each : taken) best = std::max(best, each.log_weight);
  double sum = 0.0;
  for (const Taken& each : taken) sum += exponential(each.log_weight - best);
  double kept = 0.0;
  for (Taken& each : taken) {
    each.assumption.weight = exponential(each.log_weight - best) / sum;
    if (each.assumption.weight < kLeastAssumption) continue;
    kept += each.assumption.weight;
    for (FittedNode& node : each.fit.nodes) {
      node.weight *= each.assumption.weight;
      node.assumption = group.assumptions.size();
      group.nodes.push_back(std::move(node));
    }
    group.assumptions.push_back(std::move(each.assumption));
  }
  for (FittedNode& node : group.nodes) node.weight /= kept;
  for (ShapeAssumption& each : group.assumptions) {
    each.weight /= kept;
    for (std::size_t s = 0; s < each.mistaken.size(); ++s) group.suspects[s].mistake += each.weight;
  }
  std::stable_sort(group.nodes.begin(), group.nodes.end(), [](const auto& a, const auto& b) { return a.weight > b.weight; });
  for (const FittedNode& node : group.nodes) group.mixture.push_back({node.weight, node.posterior.blocks});
}

/// Mean and sd of a combination of the common unknowns over the nodes.
struct Moments {
  double mean = 0.0;
  double square = 0.0;

  void add(const FittedNode& node, const std::vector<double>& pick, double constant) {
    const std::size_t q = pick.size();
    const double value = constant + dot(pick, node.posterior.common);
    std::vector<double> spread = pick;
    solve_transposed(node.posterior.whitener, q, spread, 1);  // U^-T pick: the unknowns are common + U^-1 η
    mean += node.weight * value;
    square += node.weight * (value * value + dot(spread, spread));
  }
  [[nodiscard]] ShiftCause cause(double stated) const { return {stated, mean, std::sqrt(std::max(square - mean * mean, 0.0))}; }
};

/// Chance that a part which left its group does not stand at its standard size, by itself: in the group its level was left free.
double apart_not_standard(const ShapeKnowledge& knowledge, const ShapeRows& rows) {
  BlockGaussian model(rows.blocks, rows.error_columns);
  double loose = 0.0;
  for (const FittedNode& node : fit_shape(knowledge, model, ShapeFreedom::usual).nodes) loose += node.scales.loose ? node.weight : 0.0;
  return loose;
}

/// What is common to all readings, and whom the model takes it for.
void tell_shift(ShapeGroup& group) {
  const std::size_t errors = group.rows.error_columns;
  const std::vector<double> average = average_errors(group.rows);
  const ShapePrior prior(group.knowledge);
  Moments setting;
  Moments made;
  for (const FittedNode& node : group.nodes) {
    const std::size_t q = node.posterior.common.size();
    std::vector<double> pick(q, 0.0);
    std::copy(average.begin(), average.end(), pick.end() - static_cast<std::ptrdiff_t>(errors));
    setting.add(node, pick, group.rows.heard_shift_um);
    std::vector<double> level(q, 0.0);
    level[prior.as_made_column()] = prior.as_made_sd(node.scales.loose);
    made.add(node, level, group.knowledge.as_made_um);
    const bool asked = group.knowledge.tolerance_um && group.assumptions[node.assumption].freedom == ShapeFreedom::usual;
    if (asked && node.scales.loose) group.not_standard += node.weight;
  }
  group.setting = setting.cause(group.rows.stated_shift_um);
  group.as_made = made.cause(prior.as_made_sd(!group.knowledge.tolerance_um.has_value()));
}

}  // namespace

TakenGroup take_readings(const GroupReadings& from) {
  const ShapeKnowledge& knowledge = from.knowledge;
  const ShapeFreedom freedom = from.freedom;
  TakenGroup out{{from.parts, from.origin, knowledge, {}, {}, {}, from.rows, from.sources, {}, 1.0, 0.0, {}, {}}, {}, false, false, 0.0};
  ShapeGroup& group = out.group;
  std::vector<Taken> taken;
  taken.push_back(take_as(knowledge, group.rows, freedom, {}, 0.0));
  out.log_evidence = taken.front().log_weight;
  const double log_odds = natural_log(kMistake / (1.0 - kMistake));
  for (;;) {
    const ShapeAssumption& last = taken.back().assumption;
    const ShapeMisfit check = misfit(taken.back().screening(), last.model);
    group.misfit_tail = taken.back().screen ? misfit(taken.back().fit.nodes, last.model).group_tail : check.group_tail;
    out.part_tail = check.part_tail;
    const auto at = stands_out(check, last.mistaken);
    if (!at || group.suspects.size() >= kMostSuspects) break;
    group.suspects.push_back(suspect_of(group.rows, from.parts, from.origin, *at, check));
    std::vector<RowPlace> mistaken = last.mistaken;
    mistaken.push_back(*at);
    const double log_prior = log_odds * static_cast<double>(mistaken.size());
    taken.push_back(take_as(knowledge, group.rows, freedom, std::move(mistaken), log_prior));
  }
  if (group.misfit_tail < kMisfitGroupTail && freedom != ShapeFreedom::any_shape) {
    taken.push_back(take_as(knowledge, group.rows, ShapeFreedom::any_shape, {}, 0.0));
    // Against the readings as they are, in the same measure.
    const Taken& as_is = taken.front();
    taken.back().log_weight = as_is.log_weight + taken.back().fit.log_evidence - as_is.fit.log_evidence + natural_log(kUnlikeAnyWear);
    group.misfit_tail = misfit(taken.back().fit.nodes, taken.back().assumption.model).group_tail;
    out.set_free = true;
  }
  out.fits_nothing = group.misfit_tail < kMisfitGroupTail;
  mix(std::move(taken), group);
  tell_shift(group);
  if (freedom == ShapeFreedom::loose_level && knowledge.tolerance_um) group.not_standard = apart_not_standard(knowledge, group.rows);
  return out;
}

double evidence_of(const ShapeKnowledge& knowledge, const ShapeRows& rows, ShapeFreedom freedom) {
  return take_as(knowledge, rows, freedom, {}, 0.0).log_weight;
}

}  // namespace fettle
