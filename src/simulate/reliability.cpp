#include "simulate/reliability.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/draws.h"
#include "numeric/elementary.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

constexpr std::size_t kBins = 10;
constexpr std::size_t kLuckRuns = 400;
constexpr std::uint64_t kLuckSeed = 20'261;
constexpr double kNearestToCertain = 1e-4;

struct Sums {
  std::size_t count = 0;
  std::size_t good = 0;
  std::size_t with_exact = 0;
  double chance = 0.0;
  double exact = 0.0;
};

std::size_t bin_of(double chance) {
  FETTLE_ASSERT(chance >= 0.0 && chance <= 1.0, "a chance outside of [0, 1]: " + std::to_string(chance));
  return std::min(kBins - 1, static_cast<std::size_t>(chance * static_cast<double>(kBins)));
}

std::array<Sums, kBins> sums_of(std::span<const StatedChance> chances) {
  std::array<Sums, kBins> sums{};
  for (const StatedChance& stated : chances) {
    Sums& bin = sums[bin_of(stated.chance)];
    ++bin.count;
    bin.good += stated.good ? 1 : 0;
    bin.chance += stated.chance;
    if (!stated.exact) continue;
    FETTLE_ASSERT(*stated.exact >= 0.0 && *stated.exact <= 1.0, "a posterior outside of [0, 1]");
    ++bin.with_exact;
    bin.exact += *stated.exact;
  }
  return sums;
}

ReliabilityBin bin_from(std::size_t index, const Sums& sums) {
  const auto count = static_cast<double>(sums.count);
  const auto edge = [](std::size_t i) { return static_cast<double>(i) / static_cast<double>(kBins); };
  return {edge(index),
          edge(index + 1),
          sums.count,
          sums.chance / count,
          static_cast<double>(sums.good) / count,
          wilson_interval(sums.good, sums.count),
          sums.with_exact == sums.count ? std::optional(sums.exact / count) : std::nullopt};
}

/// The calibration errors of runs in which every engine is good with exactly the chance that was stated.
std::vector<double> errors_by_luck(std::span<const StatedChance> chances) {
  std::vector<double> errors(kLuckRuns);
  for (std::size_t run = 0; run < kLuckRuns; ++run) {
    Generator generator(kLuckSeed, run);
    std::array<double, kBins> surplus{};
    for (const StatedChance& stated : chances) {
      surplus[bin_of(stated.chance)] += stated.chance - (generator.uniform() < stated.chance ? 1.0 : 0.0);
    }
    double sum = 0.0;
    for (const double bin : surplus) sum += std::fabs(bin);
    errors[run] = sum / static_cast<double>(chances.size());
  }
  std::sort(errors.begin(), errors.end());
  return errors;
}

double log_loss_of(const StatedChance& stated) {
  const double given = stated.good ? stated.chance : 1.0 - stated.chance;
  return -natural_log(std::clamp(given, kNearestToCertain, 1.0 - kNearestToCertain));
}

}  // namespace

ShareInterval wilson_interval(std::size_t successes, std::size_t trials) {
  FETTLE_ASSERT(trials > 0 && successes <= trials, std::to_string(successes) + " of " + std::to_string(trials));
  const double z = normal_quantile(0.975);
  const auto n = static_cast<double>(trials);
  const auto k = static_cast<double>(successes);
  const double middle = (k + z * z / 2.0) / (n + z * z);
  const double half = z / (n + z * z) * std::sqrt(k * (n - k) / n + z * z / 4.0);
  return {std::max(0.0, middle - half), std::min(1.0, middle + half)};
}

std::optional<Reliability> reliability(std::span<const StatedChance> chances) {
  if (chances.empty()) return std::nullopt;
  const auto all = static_cast<double>(chances.size());
  Reliability out{chances.size(), {}, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0};
  const std::array<Sums, kBins> sums = sums_of(chances);
  for (std::size_t i = 0; i < kBins; ++i) {
    if (sums[i].count == 0) continue;
    const ReliabilityBin& bin = out.bins.emplace_back(bin_from(i, sums[i]));
    const double weight = static_cast<double>(bin.count) / all;
    out.calibration_error += weight * std::fabs(bin.mean_chance - bin.share_good);
    if (!bin.mean_exact) out.calibration_error_exact.reset();
    if (out.calibration_error_exact) {
      *out.calibration_error_exact += weight * std::fabs(bin.mean_chance - *bin.mean_exact);
    }
  }
  const std::vector<double> luck = errors_by_luck(chances);
  for (const double error : luck) out.luck_mean += error / static_cast<double>(luck.size());
  out.luck_most = luck[luck.size() * 95 / 100];
  for (const StatedChance& stated : chances) {
    const double miss = stated.chance - (stated.good ? 1.0 : 0.0);
    out.brier += miss * miss / all;
    out.log_loss += log_loss_of(stated) / all;
  }
  return out;
}

}  // namespace fettle
