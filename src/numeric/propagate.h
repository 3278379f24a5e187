#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "base/progress.h"
#include "base/result.h"
#include "numeric/draws.h"

namespace fettle {

/// One independent error source of a value that is linear in its sources. A normal shape with degrees of freedom is
/// drawn as Student's t, see draw().
struct ShapedSource {
  double coefficient;
  DrawShape shape;
  double standard_uncertainty;  ///< of the rectangle or triangle: its standard deviation, not its half-width
  std::optional<double> degrees_of_freedom;  ///< none: infinitely many
};

struct PropagationOptions {
  std::size_t trials;  ///< at most 10 000 000, at least 20 / (1 - probability)
  std::uint64_t seed;  ///< part of the record
  double probability;  ///< that the intervals hold, above 0, below 1
};

struct CoverageInterval {
  double low;
  double high;
};

enum class PropagationEnd { finished, cancelled };

/// What the draws say of the value's error. Look at `usable` before the numbers: a cancelled run has none (all 0).
struct Propagation {
  PropagationEnd end;
  bool usable;
  std::size_t trials;
  double mean;
  double standard_deviation;
  CoverageInterval symmetric;  ///< as much probability below as above
  CoverageInterval shortest;   ///< noisy at its ends, as the shortest is flat: compare widths
};

/// Propagates distributions by the Monte Carlo method for value = sum of coefficient * source, sources with mean 0.
/// Units: those of coefficient * uncertainty. Needs options within their ranges, else the problems
/// numeric.trials_out_of_range {given, least, most} and numeric.probability_out_of_range {given}, all at once; sources
/// as combine_uncertainty and draw need them, else InternalError. The same input gives the same bits on every machine:
/// trials are drawn in blocks of kTrialsInBlock with a stream each, and sums run in the order of trials within a block,
/// then of blocks. Error: the statistical one of the trials; at 1 000 000 the ends of a 95 % interval of a normal value
/// are within 0.01 standard deviations. Source: jcgm101 7.2 to 7.7. Kept by
/// tests/outside/statistics/jcgm101_additive.txt.
[[nodiscard]] Result<Propagation> propagate(std::span<const ShapedSource> sources, const PropagationOptions& options,
                                            Progress* progress = nullptr);

/// Trials of one block: block `number` of any propagation with this seed, `trials` values (at most kTrialsInBlock). For
/// hands that share the blocks; `propagate` is these in a row.
inline constexpr std::size_t kTrialsInBlock = 10'000;
[[nodiscard]] std::vector<double> propagate_block(std::span<const ShapedSource> sources, std::uint64_t seed,
                                                  std::uint64_t number, std::size_t trials);

}  // namespace fettle
