#include "simulate/score.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr std::array kRules = {DecisionRule::notebook_equal_passes,
                               DecisionRule::notebook_equal_fails,
                               DecisionRule::guarded,
                               DecisionRule::bias_corrected,
                               DecisionRule::flat,
                               DecisionRule::flat_tuned,
                               DecisionRule::ours,
                               DecisionRule::bayes};

enum class Way { raw, expected };

struct Decider {
  double threshold;
  double flat_tuned_threshold;

  /// Whether the rule passes the engine; none if it needs a figure that is not known.
  [[nodiscard]] std::optional<bool> passes(DecisionRule rule, const Outcome& outcome) const {
    const auto at = [](std::optional<double> figure, double level) {
      return figure ? std::optional(*figure >= level) : std::nullopt;
    };
    switch (rule) {
      case DecisionRule::notebook_equal_passes:
        return outcome.notebook_equal_passes;
      case DecisionRule::notebook_equal_fails:
        return outcome.notebook_equal_fails;
      case DecisionRule::guarded:
        return outcome.guarded_passes;
      case DecisionRule::bias_corrected:
        return outcome.bias_corrected_passes;
      case DecisionRule::flat:
        return at(outcome.flat, threshold);
      case DecisionRule::flat_tuned:
        return at(outcome.flat, flat_tuned_threshold);
      case DecisionRule::ours:
        return outcome.ours ? at(outcome.ours, threshold) : std::optional(outcome.guarded_passes);
      case DecisionRule::bayes:
        return at(outcome.exact, threshold);
    }
    FETTLE_ASSERT(false, "a rule that decides nothing");
  }
};

/// Chance that the engine is good: its truth, or what the exact posterior says.
double goodness(const Outcome& outcome, Way way) {
  if (way == Way::raw) return outcome.good ? 1.0 : 0.0;
  FETTLE_ASSERT(outcome.exact && *outcome.exact >= 0.0 && *outcome.exact <= 1.0, "a posterior outside of [0, 1]");
  return *outcome.exact;
}

double loss(bool passed, double good, Costs costs) {
  return passed ? costs.wrong_pass * (1.0 - good) : costs.wrong_fail * good;
}

bool all_exact(std::span<const Outcome> outcomes) {
  return std::all_of(outcomes.begin(), outcomes.end(), [](const Outcome& o) { return o.exact.has_value(); });
}

double mean(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

/// Standard error of the mean of independent values.
double error_of_mean(const std::vector<double>& values) {
  const double middle = mean(values);
  double squares = 0.0;
  for (const double value : values) squares += (value - middle) * (value - middle);
  const auto n = static_cast<double>(values.size());
  return std::sqrt(squares / (n * (n - 1.0)));
}

/// mean(above) / mean(below) of paired values, with its error by the delta method. None unless mean(below) > 0.
std::optional<Scattered> paired_ratio(const std::vector<double>& above, const std::vector<double>& below) {
  const double divisor = mean(below);
  if (!(divisor > 0.0)) return std::nullopt;
  const double ratio = mean(above) / divisor;
  std::vector<double> rest(above.size());
  for (std::size_t i = 0; i < rest.size(); ++i) rest[i] = above[i] - ratio * below[i];
  return Scattered{ratio, error_of_mean(rest) / divisor};
}

std::vector<double> difference(const std::vector<double>& one, const std::vector<double>& other) {
  std::vector<double> out(one.size());
  for (std::size_t i = 0; i < out.size(); ++i) out[i] = one[i] - other[i];
  return out;
}

/// The decisions of one rule on all engines; none if one of them cannot be decided.
std::optional<std::vector<bool>> decisions_of(DecisionRule rule, std::span<const Outcome> outcomes,
                                              const Decider& decider) {
  std::vector<bool> out;
  out.reserve(outcomes.size());
  for (const Outcome& outcome : outcomes) {
    const std::optional<bool> passes = decider.passes(rule, outcome);
    if (!passes) return std::nullopt;
    out.push_back(*passes);
  }
  return out;
}

using Losses = std::array<std::optional<std::vector<double>>, kRules.size()>;

const std::optional<std::vector<double>>& of(const Losses& losses, DecisionRule rule) {
  return losses[static_cast<std::size_t>(rule)];
}

/// By one way of counting: the losses of every engine under every rule that could decide.
struct Count {
  Way way;
  Losses losses;

  [[nodiscard]] const std::vector<double>& notebook() const {
    const std::vector<double>& passes = *of(losses, DecisionRule::notebook_equal_passes);
    const std::vector<double>& fails = *of(losses, DecisionRule::notebook_equal_fails);
    return mean(passes) <= mean(fails) ? passes : fails;
  }
  [[nodiscard]] LossFigures figures(DecisionRule rule) const {
    const std::vector<double>& own = *of(losses, rule);
    return {{mean(own), error_of_mean(own)}, paired_ratio(own, notebook())};
  }
  [[nodiscard]] std::optional<Scattered> gap_open() const {
    const std::optional<std::vector<double>>& bayes = of(losses, DecisionRule::bayes);
    if (!bayes) return std::nullopt;
    return paired_ratio(difference(*of(losses, DecisionRule::ours), *bayes), difference(notebook(), *bayes));
  }
};

using Decisions = std::array<std::optional<std::vector<bool>>, kRules.size()>;

Count count(Way way, std::span<const Outcome> outcomes, const Decisions& decisions, Costs costs) {
  Count out{way, {}};
  for (std::size_t r = 0; r < kRules.size(); ++r) {
    if (!decisions[r]) continue;
    std::vector<double>& losses = out.losses[r].emplace(outcomes.size());
    for (std::size_t i = 0; i < outcomes.size(); ++i) {
      losses[i] = loss((*decisions[r])[i], goodness(outcomes[i], way), costs);
    }
  }
  return out;
}

RuleScore rule_score(DecisionRule rule, std::span<const Outcome> outcomes, const std::vector<bool>& passes,
                     const Count& raw, const std::optional<Count>& expected) {
  RuleScore out{rule, 0, 0, 0, raw.figures(rule), std::nullopt};
  for (std::size_t i = 0; i < outcomes.size(); ++i) {
    if (passes[i]) ++out.passed;
    if (passes[i] && !outcomes[i].good) ++out.wrong_passes;
    if (!passes[i] && outcomes[i].good) ++out.wrong_fails;
  }
  if (expected) out.expected = expected->figures(rule);
  return out;
}

std::optional<Reliability> reliability_of(std::span<const Outcome> outcomes, std::optional<double> Outcome::*figure) {
  std::vector<StatedChance> stated;
  for (const Outcome& outcome : outcomes) {
    if (outcome.*figure) stated.push_back({*(outcome.*figure), outcome.good, outcome.exact});
  }
  return reliability(stated);
}

}  // namespace

double cost_threshold(Costs costs) {
  FETTLE_ASSERT(costs.wrong_pass > 0.0 && costs.wrong_fail > 0.0 && std::isfinite(costs.wrong_pass + costs.wrong_fail),
                "costs that are not positive");
  return costs.wrong_pass / (costs.wrong_pass + costs.wrong_fail);
}

const RuleScore* Scores::find(DecisionRule rule) const& {
  const auto found = std::find_if(rules.begin(), rules.end(), [rule](const RuleScore& s) { return s.rule == rule; });
  return found == rules.end() ? nullptr : &*found;
}

Scores score(std::span<const Outcome> outcomes, Costs costs, double flat_tuned_threshold) {
  FETTLE_ASSERT(outcomes.size() >= 2, "scores of fewer than two engines");
  const Decider decider{cost_threshold(costs), flat_tuned_threshold};
  Decisions decisions;
  for (std::size_t r = 0; r < kRules.size(); ++r) decisions[r] = decisions_of(kRules[r], outcomes, decider);
  const Count raw = count(Way::raw, outcomes, decisions, costs);
  std::optional<Count> expected;
  if (all_exact(outcomes)) expected = count(Way::expected, outcomes, decisions, costs);

  Scores out{costs,
             flat_tuned_threshold,
             outcomes.size(),
             0,
             0,
             0,
             0.0,
             {},
             raw.gap_open(),
             expected ? expected->gap_open() : std::nullopt,
             reliability_of(outcomes, &Outcome::ours),
             reliability_of(outcomes, &Outcome::flat)};
  for (const Outcome& outcome : outcomes) {
    out.good += outcome.good ? 1U : 0U;
    out.misfits += outcome.misfit ? 1U : 0U;
    out.without_chance += outcome.ours ? 0U : 1U;
    out.mean_readings += static_cast<double>(outcome.readings) / static_cast<double>(outcomes.size());
  }
  for (std::size_t r = 0; r < kRules.size(); ++r) {
    if (decisions[r]) out.rules.push_back(rule_score(kRules[r], outcomes, *decisions[r], raw, expected));
  }
  return out;
}

std::optional<double> tune_threshold(std::span<const Outcome> outcomes, Costs costs) {
  const double dictated = cost_threshold(costs);
  const Way way = all_exact(outcomes) ? Way::expected : Way::raw;
  std::vector<std::pair<double, double>> change;  // figure; change of the loss when an engine with it begins to fail
  double now = 0.0;
  for (const Outcome& outcome : outcomes) {
    if (!outcome.flat) return std::nullopt;
    FETTLE_ASSERT(*outcome.flat >= 0.0 && *outcome.flat <= 1.0, "a figure outside of [0, 1]");
    const double good = goodness(outcome, way);
    now += loss(true, good, costs);
    change.emplace_back(*outcome.flat, loss(false, good, costs) - loss(true, good, costs));
  }
  if (change.empty()) return std::nullopt;
  std::sort(change.begin(), change.end());
  double least = now;
  double best = 0.0;
  for (std::size_t i = 0; i < change.size(); ++i) {
    now += change[i].second;
    const double figure = change[i].first;
    const bool last = i + 1 == change.size();
    if (!last && change[i + 1].first == figure) continue;
    const double next = last ? (figure < 1.0 ? 1.0 : 1.0 + 0x1p-20) : change[i + 1].first;
    const double middle = figure + (next - figure) / 2.0;
    const bool nearer = std::fabs(middle - dictated) < std::fabs(best - dictated);
    const double slack = 1e-12 * (costs.wrong_pass + costs.wrong_fail) * static_cast<double>(change.size());
    if (now < least - slack || (now <= least + slack && nearer)) {
      least = std::min(least, now);
      best = middle;
    }
  }
  return best;
}

namespace {

double loss_of(const Outcome& outcome, bool passed, Costs costs) {
  if (passed == outcome.good) return 0.0;
  return passed ? costs.wrong_pass : costs.wrong_fail;
}

}  // namespace

std::optional<FlatByHindsight> flat_by_hindsight(const std::vector<std::vector<Outcome>>& families, Costs costs) {
  std::vector<double> notebook;
  for (const std::vector<Outcome>& family : families) {
    double passes = 0.0;
    double fails = 0.0;
    for (const Outcome& each : family) {
      if (!each.flat) return std::nullopt;
      passes += loss_of(each, each.notebook_equal_passes, costs);
      fails += loss_of(each, each.notebook_equal_fails, costs);
    }
    notebook.push_back(std::min(passes, fails));
    if (notebook.back() <= 0.0) return std::nullopt;
  }
  if (families.empty()) return std::nullopt;
  std::optional<FlatByHindsight> best;
  constexpr int kSteps = 100;
  for (int step = 0; step <= kSteps; ++step) {
    const double threshold = static_cast<double>(step) / kSteps;
    double mean = 0.0;
    for (std::size_t f = 0; f < families.size(); ++f) {
      double loss = 0.0;
      for (const Outcome& each : families[f]) loss += loss_of(each, *each.flat >= threshold, costs);
      mean += loss / notebook[f] / static_cast<double>(families.size());
    }
    if (!best || mean < best->mean_to_notebook) best = FlatByHindsight{threshold, mean};
  }
  return best;
}

}  // namespace fettle
