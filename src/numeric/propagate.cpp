#include "numeric/propagate.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr std::size_t kMostTrials = 10'000'000;
// So many trials must lie outside of the interval, or its ends are hearsay.
constexpr double kTrialsOutside = 20.0;

std::string four_decimals(double value) {
  if (!std::isfinite(value) || std::fabs(value) > 1e6) return "?";
  std::array<char, 32> buffer{};
  const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, 4).ptr;
  return {buffer.data(), end};
}

Problems problems_of(const PropagationOptions& options) {
  Problems problems;
  const bool probable = options.probability > 0.0 && options.probability < 1.0;
  if (!probable) {
    problems.push_back(
        {"numeric.probability_out_of_range", {}, {decimal("given", four_decimals(options.probability))}});
  }
  const double least = probable ? std::ceil(kTrialsOutside / (1.0 - options.probability)) : kTrialsOutside;
  if (static_cast<double>(options.trials) < least || options.trials > kMostTrials) {
    const double shown = std::fmin(least, static_cast<double>(kMostTrials));
    problems.push_back(
        {"numeric.trials_out_of_range",
         {},
         {count("given", static_cast<std::int64_t>(options.trials)), count("least", static_cast<std::int64_t>(shown)),
          count("most", static_cast<std::int64_t>(kMostTrials))}});
  }
  return problems;
}

struct Moments {
  double mean;
  double standard_deviation;
};

// Sums of blocks first, then the sum over blocks: the order that several hands would keep too.
template <class Term>
double sum_by_blocks(std::span<const double> values, Term term) {
  double total = 0.0;
  for (std::size_t start = 0; start < values.size(); start += kTrialsInBlock) {
    double sum = 0.0;
    for (const double value : values.subspan(start, std::min(kTrialsInBlock, values.size() - start)))
      sum += term(value);
    total += sum;
  }
  return total;
}

Moments moments_of(std::span<const double> values) {
  const double n = static_cast<double>(values.size());
  const double mean = sum_by_blocks(values, [](double value) { return value; }) / n;
  const double squares = sum_by_blocks(values, [mean](double value) { return (value - mean) * (value - mean); });
  return {mean, std::sqrt(squares / (n - 1.0))};
}

// How many steps from the lower to the upper end in the sorted trials, jcgm101 7.7.1.
std::size_t steps_inside(std::size_t trials, double probability) {
  const auto steps = static_cast<std::size_t>(probability * static_cast<double>(trials) + 0.5);
  return std::min(steps, trials - 1);
}

CoverageInterval symmetric_interval(std::span<const double> sorted, std::size_t steps) {
  // jcgm101 7.7.2 counts from 1: r = (M - q) / 2, or half of one more if that is odd.
  const std::size_t outside = sorted.size() - steps;
  const std::size_t first = (outside + 1) / 2 - 1;
  return {sorted[first], sorted[first + steps]};
}

CoverageInterval shortest_interval(std::span<const double> sorted, std::size_t steps) {
  std::size_t best = 0;
  for (std::size_t first = 1; first + steps < sorted.size(); ++first) {
    if (sorted[first + steps] - sorted[first] < sorted[best + steps] - sorted[best]) best = first;
  }
  return {sorted[best], sorted[best + steps]};
}

}  // namespace

std::vector<double> propagate_block(std::span<const ShapedSource> sources, std::uint64_t seed, std::uint64_t number,
                                    std::size_t trials) {
  FETTLE_ASSERT(trials <= kTrialsInBlock, std::to_string(trials));
  Generator generator(seed, number);
  std::vector<double> values(trials, 0.0);
  std::vector<double> errors(trials);
  for (const ShapedSource& source : sources) {
    FETTLE_ASSERT(std::isfinite(source.coefficient), "coefficient is not finite");
    draw(generator, source.shape, source.standard_uncertainty, source.degrees_of_freedom, errors);
    for (std::size_t i = 0; i < trials; ++i) values[i] += source.coefficient * errors[i];
  }
  return values;
}

Result<Propagation> propagate(std::span<const ShapedSource> sources, const PropagationOptions& options,
                              Progress* progress) {
  Problems problems = problems_of(options);
  if (!problems.empty()) return problems;
  std::vector<double> values;
  values.reserve(options.trials);
  for (std::uint64_t block = 0; values.size() < options.trials; ++block) {
    const std::size_t trials = std::min(kTrialsInBlock, options.trials - values.size());
    const std::vector<double> drawn = propagate_block(sources, options.seed, block, trials);
    values.insert(values.end(), drawn.begin(), drawn.end());
    if (progress && !progress->tell(static_cast<long>(values.size()), static_cast<long>(options.trials))) {
      return Propagation{PropagationEnd::cancelled, false, values.size(), 0.0, 0.0, {0.0, 0.0}, {0.0, 0.0}};
    }
  }
  const Moments moments = moments_of(values);
  std::sort(values.begin(), values.end());
  const std::size_t steps = steps_inside(options.trials, options.probability);
  return Propagation{.end = PropagationEnd::finished,
                     .usable = true,
                     .trials = options.trials,
                     .mean = moments.mean,
                     .standard_deviation = moments.standard_deviation,
                     .symmetric = symmetric_interval(values, steps),
                     .shortest = shortest_interval(values, steps)};
}

}  // namespace fettle
