#include "form/rounded_repeats.h"

#include <algorithm>
#include <vector>

#include "base/assertion.h"
#include "numeric/elementary.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

constexpr int kGrid = 401;
constexpr double kReach = 5.0;  // repeat sds beyond the outermost half step

}  // namespace

RoundedMean rounded_mean(std::span<const double> readings, double repeat_sd, double step) {
  FETTLE_ASSERT(!readings.empty() && repeat_sd > 0.0 && step > 0.0, "rounded repeats");
  const auto [low, high] = std::minmax_element(readings.begin(), readings.end());
  const double from = *low - step / 2.0 - kReach * repeat_sd;
  const double to = *high + step / 2.0 + kReach * repeat_sd;
  std::vector<double> log_likelihood(kGrid, 0.0);
  double best = -1e300;
  for (int g = 0; g < kGrid; ++g) {
    const double size = from + (to - from) * g / (kGrid - 1);
    double sum = 0.0;
    for (const double reading : readings) {
      const double chance =
          normal_between((reading - step / 2.0 - size) / repeat_sd, (reading + step / 2.0 - size) / repeat_sd);
      sum += chance > 1e-300 ? natural_log(chance) : -690.0;
    }
    log_likelihood[static_cast<std::size_t>(g)] = sum;
    best = std::max(best, sum);
  }
  double weight = 0.0;
  double mean = 0.0;
  double square = 0.0;
  for (int g = 0; g < kGrid; ++g) {
    const double size = from + (to - from) * g / (kGrid - 1);
    const double w = exponential(log_likelihood[static_cast<std::size_t>(g)] - best);
    weight += w;
    mean += w * (size - from);
    square += w * (size - from) * (size - from);
  }
  mean /= weight;
  return {from + mean, square / weight - mean * mean};
}

}  // namespace fettle
