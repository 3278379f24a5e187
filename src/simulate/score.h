#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "simulate/outcome.h"
#include "simulate/reliability.h"

namespace fettle {

/// What a wrong decision about one engine costs, in any one currency. To pass what is bad is one mistake, to fail what
/// is good the other.
struct Costs {
  double wrong_pass;
  double wrong_fail;
};

/// The costs that the trials were run with; invented.
inline constexpr Costs kTrialCosts = {1500.0, 450.0};

/// The chance at which passing and failing cost the same: wrong_pass / (wrong_pass + wrong_fail). Needs both costs
/// positive and finite, else InternalError.
[[nodiscard]] double cost_threshold(Costs costs);

/// In the order in which they are listed. A rule on a figure passes an engine whose figure is at or above its
/// threshold.
enum class DecisionRule {
  notebook_equal_passes,
  notebook_equal_fails,
  guarded,
  bias_corrected,
  flat,        // the flat-prior figure at the threshold that the costs dictate
  flat_tuned,  // the same at a threshold found by hindsight
  ours,        // the shape model's chance at the threshold of the costs; guarded where it states none
  bayes,       // the exact posterior at the threshold of the costs: the limit
};

/// A figure with its standard error, one standard deviation, from the scatter between engines.
struct Scattered {
  double value;
  double standard_error;
};

struct LossFigures {
  /// In the currency of the costs, per engine.
  Scattered mean;
  /// Over that of the better notebook rule (that with the smaller mean, by the same way of counting). None if that one
  /// lost nothing. The error is of a paired ratio by the delta method: the scatter of (loss - ratio x notebook's loss)
  /// over the engines, divided by root of their number and by the notebook's mean. That the better notebook rule was
  /// chosen on the same engines is not in it.
  std::optional<Scattered> to_notebook;
};

/// One way to count the losses of a rule.
struct RuleScore {
  DecisionRule rule;
  std::size_t passed;
  std::size_t wrong_passes;
  std::size_t wrong_fails;
  /// Against the truth.
  LossFigures raw;
  /// Averaged over what the truth may be, given the readings: wrong_pass (1 - p*) if passed, wrong_fail p* if failed,
  /// with the exact posterior p*. The same on the average with far less scatter. None unless all p* are known.
  std::optional<LossFigures> expected;
};

struct Scores {
  Costs costs;
  double flat_tuned_threshold;
  std::size_t engines;
  std::size_t good;
  std::size_t misfits;
  /// Engines for which the shape model stated no chance.
  std::size_t without_chance;
  double mean_readings;
  /// In the order of DecisionRule. A rule whose figure is not known for every engine is left out (flat, flat_tuned,
  /// bayes).
  std::vector<RuleScore> rules;
  /// (ours - bayes) / (better notebook - bayes): 0 is as good as can be, 1 no better than a notebook. None without
  /// bayes, or if the better notebook lost no more than it. Errors as in LossFigures.
  std::optional<Scattered> gap_open_raw;
  std::optional<Scattered> gap_open_expected;
  /// Of the engines that have the figure; none if no engine has it.
  std::optional<Reliability> ours;
  std::optional<Reliability> flat;

  /// None if the rule was left out. Points into these scores, which must outlive it.
  [[nodiscard]] const RuleScore* find(DecisionRule rule) const&;
  [[nodiscard]] const RuleScore* find(DecisionRule rule) const&& = delete;
};

/// Scores every rule on the same engines. Needs two engines or more, chances in [0, 1], costs as cost_threshold says,
/// else InternalError. Kept by Score.AgreesWithHandComputedLosses and Score.StatedErrorsAreThoseSeenInRepetition.
[[nodiscard]] Scores score(std::span<const Outcome> outcomes, Costs costs, double flat_tuned_threshold);

/// The threshold of the flat-prior figure with the least loss on these engines: hindsight, which nobody has at the
/// bench. Counts expected losses where every exact posterior is known, else raw ones. It lies halfway between two
/// figures that occur, or at 0 (all pass), or above the largest (a little above 1 if that one is 1); of several with
/// the same loss, the nearest to the threshold of the costs. None unless every engine has the figure, and for no
/// engines. Exact search. Kept by TuneThreshold.IsAsGoodAsTryingEverything.
[[nodiscard]] std::optional<double> tune_threshold(std::span<const Outcome> outcomes, Costs costs);

/// The one threshold of the flat-prior figure that does best on the mean over several families, found by hindsight over all of them, in steps
/// of 0.01; and what it then loses over the better notebook rule, raw, on that mean. None unless every engine has the figure and every
/// family's better notebook rule loses something. Kept by FlatByHindsight.IsTheBestOfAllSteps.
struct FlatByHindsight {
  double threshold;
  double mean_to_notebook;
};
[[nodiscard]] std::optional<FlatByHindsight> flat_by_hindsight(const std::vector<std::vector<Outcome>>& families, Costs costs);

}  // namespace fettle
