#include "simulate/guided_scores.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr double kLowestPrice = 0.05;
constexpr double kHighestPrice = 1e6;
constexpr double kPriceStep = 1.1;

const GuidedState& at_price(const GuidedOutcome& outcome, double price) {
  std::size_t visit = 0;
  while (visit + 1 < outcome.guided.size() && outcome.guided[visit].worth >= price) ++visit;
  return outcome.guided[visit];
}

const NotebookState& within_band(const GuidedOutcome& outcome, double band_um) {
  std::size_t visit = 0;
  while (visit + 1 < outcome.notebook.size() && outcome.notebook[visit].nearest_um < band_um) ++visit;
  return outcome.notebook[visit];
}

double loss_of_decision(bool passes, bool good, Costs costs) {
  if (passes == good) return 0.0;
  return passes ? costs.wrong_pass : costs.wrong_fail;
}

bool passes(const GuidedState& state, Costs costs) {
  return state.chance ? *state.chance >= cost_threshold(costs) : state.guarded_passes;
}

double guided_mean(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double each : values) sum += each;
  return sum / static_cast<double>(values.size());
}

/// Ratio of means with the error of a paired ratio, see LossFigures.
std::optional<Scattered> guided_ratio(const std::vector<double>& losses, const std::vector<double>& base) {
  const double under = guided_mean(base);
  if (under <= 0.0) return std::nullopt;
  const double value = guided_mean(losses) / under;
  double square = 0.0;
  for (std::size_t i = 0; i < losses.size(); ++i) {
    const double off = losses[i] - value * base[i];
    square += off * off;
  }
  const double n = static_cast<double>(losses.size());
  return Scattered{value, std::sqrt(square / n) / std::sqrt(n) / under};
}

struct NotebookLosses {
  std::vector<double> passes;
  std::vector<double> fails;
  double more_readings = 0.0;  ///< mean

  [[nodiscard]] const std::vector<double>& better() const { return guided_mean(passes) <= guided_mean(fails) ? passes : fails; }
};

NotebookLosses notebook_losses(const std::vector<GuidedOutcome>& outcomes, Costs costs, double band_um) {
  NotebookLosses out;
  for (const GuidedOutcome& each : outcomes) {
    const NotebookState& state = within_band(each, band_um);
    out.passes.push_back(loss_of_decision(state.equal_passes, each.good, costs));
    out.fails.push_back(loss_of_decision(state.equal_fails, each.good, costs));
    out.more_readings += static_cast<double>(state.readings - each.notebook.front().readings) / static_cast<double>(outcomes.size());
  }
  return out;
}

/// With so many more readings on the average. Readings stand on the steps of a dial, so the band has steps as well: between two of them a part
/// of the engines goes by the wider one.
NotebookLosses notebook_with(const std::vector<GuidedOutcome>& outcomes, Costs costs, double more_readings) {
  std::vector<double> bands = {0.0};
  for (const GuidedOutcome& each : outcomes) {
    for (const NotebookState& state : each.notebook) bands.push_back(state.nearest_um * (1.0 + 1e-9) + 1e-9);
  }
  std::sort(bands.begin(), bands.end());
  bands.erase(std::unique(bands.begin(), bands.end(), [](double a, double b) { return b - a < 1e-6; }), bands.end());
  NotebookLosses narrow = notebook_losses(outcomes, costs, 0.0);
  for (const double band : bands) {
    NotebookLosses wide = notebook_losses(outcomes, costs, band);
    if (wide.more_readings <= more_readings) {
      narrow = std::move(wide);
      continue;
    }
    const double part = (more_readings - narrow.more_readings) / (wide.more_readings - narrow.more_readings);
    for (std::size_t i = 0; i < narrow.passes.size(); ++i) {
      narrow.passes[i] += part * (wide.passes[i] - narrow.passes[i]);
      narrow.fails[i] += part * (wide.fails[i] - narrow.fails[i]);
    }
    narrow.more_readings = more_readings;
    break;
  }
  return narrow;
}

double share_of_more_readings(const std::vector<GuidedOutcome>& outcomes, double price) {
  double first = 0.0;
  double more = 0.0;
  for (const GuidedOutcome& each : outcomes) {
    first += static_cast<double>(each.guided.front().readings);
    more += static_cast<double>(at_price(each, price).readings - each.guided.front().readings);
  }
  return more / first;
}

}  // namespace

std::vector<StatedChance> chances_after_guiding(const std::vector<GuidedOutcome>& outcomes, double price) {
  std::vector<StatedChance> out;
  for (const GuidedOutcome& each : outcomes) {
    const GuidedState& last = at_price(each, price);
    if (last.chance) out.push_back({*last.chance, each.good, std::nullopt});
  }
  return out;
}

GuidedScores guided_scores(const std::string& family, const std::string& hand, const std::vector<GuidedOutcome>& outcomes, Costs costs, double price) {
  FETTLE_ASSERT(outcomes.size() > 1, family);
  GuidedScores out{family, hand, outcomes.size(), price, 0.0, share_of_more_readings(outcomes, price), 0.0, {}, {}, {}, 0.0, {}};
  std::vector<double> before;
  std::vector<double> after;
  for (const GuidedOutcome& each : outcomes) {
    const GuidedState& last = at_price(each, price);
    const double n = static_cast<double>(outcomes.size());
    out.first_readings += static_cast<double>(each.guided.front().readings) / n;
    out.more_settings += static_cast<double>(last.settings - each.guided.front().settings) / n;
    before.push_back(loss_of_decision(passes(each.guided.front(), costs), each.good, costs));
    after.push_back(loss_of_decision(passes(last, costs), each.good, costs));
  }
  const NotebookLosses first = notebook_losses(outcomes, costs, 0.0);
  out.before = guided_ratio(before, first.better());
  out.after = guided_ratio(after, first.better());
  const NotebookLosses guided = notebook_with(outcomes, costs, out.more_readings * out.first_readings);
  out.notebook = guided_ratio(guided.better(), first.better());
  out.notebook_more_readings = guided.more_readings / out.first_readings;
  out.chances = reliability(chances_after_guiding(outcomes, price));
  return out;
}

double price_for(const std::vector<std::vector<GuidedOutcome>>& families, double share) {
  double price = kLowestPrice;
  while (price < kHighestPrice) {
    double sum = 0.0;
    for (const auto& each : families) sum += share_of_more_readings(each, price) / static_cast<double>(families.size());
    if (sum <= share) break;
    price *= kPriceStep;
  }
  return price;
}

}  // namespace fettle
