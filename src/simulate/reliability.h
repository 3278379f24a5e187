#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace fettle {

struct ShareInterval {
  double low;
  double high;
};

/// The interval of 95 % for a share, from counts: the shares that a score test would not reject. No unit. Needs
/// 0 <= successes <= trials, trials > 0, else InternalError. Always in [0, 1]. Its cover wanders a little about 95 %
/// with the true share (brown2001). Source: wilson1927; brown2001, there by the same name.
/// Kept by Wilson.HasThePublishedValues and Wilson.CoversItsShare.
[[nodiscard]] ShareInterval wilson_interval(std::size_t successes, std::size_t trials);

/// What was said of one engine, and what it was.
struct StatedChance {
  double chance;
  bool good;
  /// The exact posterior, where known.
  std::optional<double> exact;
};

/// Those whose chance fell into [from, to), the last bin with its upper end.
struct ReliabilityBin {
  double from;
  double to;
  std::size_t count;
  double mean_chance;
  double share_good;
  ShareInterval share_interval;  // 95 %, Wilson
  std::optional<double> mean_exact;
};

/// How far stated chances can be taken at their word.
struct Reliability {
  std::size_t count;
  /// In rising order; a bin that nobody fell into is left out.
  std::vector<ReliabilityBin> bins;
  /// Sum over bins of count / all times |mean chance - share good|. Never 0 in practice, by luck of the draw alone:
  double calibration_error;
  /// what it would come to on the average, and at most in 95 of 100 runs, if every stated chance were exactly right.
  double luck_mean;
  double luck_most;
  /// The same with the mean of the exact posterior in the place of the share, which leaves the luck out. None unless
  /// every exact posterior is known.
  std::optional<double> calibration_error_exact;
  /// Mean of (chance - 1 or 0) squared: 0 is best, 0.25 is what "one half" always scores.
  double brier;
  /// Mean of -ln(chance given to what came true): 0 is best, 0.69 is what "one half" always scores. A chance nearer
  /// than 1e-4 to 0 or 1 counts as that near: one cannot be told from the other in four printed digits.
  double log_loss;
};

/// In ten bins of equal width. None for no chances. Needs chances and posteriors in [0, 1], else InternalError. The
/// luck comes from 400 seeded runs on the same chances: the same figures every time, the mean to about 2 % of itself,
/// the most to about 5 %. Source: murphy1977 (reliability), brier1950. Kept by Reliability.LuckAgreesWithEnumeration
/// and Reliability.HonestChancesStayWithinTheirLuck.
[[nodiscard]] std::optional<Reliability> reliability(std::span<const StatedChance> chances);

}  // namespace fettle
