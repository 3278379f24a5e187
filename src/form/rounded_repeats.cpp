#include "form/rounded_repeats.h"

#include <algorithm>
#include <vector>

#include "base/assertion.h"
#include "numeric/elementary.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

constexpr std::size_t kGrid = 401;
constexpr double kReach = 5.0;  // repeat sds beyond the outermost half step
constexpr double kMatters = 50.0;  // below the best by more than e^50 a size does not count

/// Sizes on an even grid.
struct Stretch {
  double from;
  double to;
  [[nodiscard]] double length() const { return to - from; }
  [[nodiscard]] double at(std::size_t g) const { return from + length() * static_cast<double>(g) / (kGrid - 1); }
};

std::vector<double> log_likelihoods(std::span<const double> readings, double repeat_sd, double step, const Stretch& stretch) {
  std::vector<double> out(kGrid, 0.0);
  for (std::size_t g = 0; g < kGrid; ++g) {
    for (const double reading : readings) {
      const double off = reading - stretch.at(g);
      out[g] += log_normal_between((off - step / 2.0) / repeat_sd, (off + step / 2.0) / repeat_sd);
    }
  }
  return out;
}

/// The likelihood is concave in its logarithm, so what matters is one stretch.
Stretch where_it_matters(const std::vector<double>& log_likelihood, const Stretch& stretch) {
  const double least = *std::max_element(log_likelihood.begin(), log_likelihood.end()) - kMatters;
  const auto matters = [&](double each) { return each >= least; };
  const auto first = std::find_if(log_likelihood.begin(), log_likelihood.end(), matters) - log_likelihood.begin();
  const auto last = log_likelihood.rend() - std::find_if(log_likelihood.rbegin(), log_likelihood.rend(), matters) - 1;
  return {stretch.at(static_cast<std::size_t>(std::max<std::ptrdiff_t>(first - 1, 0))),
          stretch.at(static_cast<std::size_t>(std::min<std::ptrdiff_t>(last + 1, kGrid - 1)))};
}

RoundedMean moments(const std::vector<double>& log_likelihood, const Stretch& stretch) {
  const double best = *std::max_element(log_likelihood.begin(), log_likelihood.end());
  double weight = 0.0;
  double mean = 0.0;
  double square = 0.0;
  for (std::size_t g = 0; g < kGrid; ++g) {
    const double above = stretch.at(g) - stretch.from;
    const double w = exponential(log_likelihood[g] - best);
    weight += w;
    mean += w * above;
    square += w * above * above;
  }
  mean /= weight;
  return {stretch.from + mean, square / weight - mean * mean};
}

}  // namespace

RoundedMean rounded_mean(std::span<const double> readings, double repeat_sd, double step) {
  FETTLE_ASSERT(!readings.empty() && repeat_sd > 0.0 && step > 0.0, "rounded repeats");
  const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
  Stretch stretch{*low - step / 2.0 - kReach * repeat_sd, *high + step / 2.0 + kReach * repeat_sd};
  for (;;) {
    const std::vector<double> log_likelihood = log_likelihoods(readings, repeat_sd, step, stretch);
    const Stretch narrow = where_it_matters(log_likelihood, stretch);
    if (narrow.length() > stretch.length() / 2.0) return moments(log_likelihood, stretch);
    stretch = narrow;
  }
}

}  // namespace fettle
