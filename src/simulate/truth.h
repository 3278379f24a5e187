#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "form/draw_evaluator.h"
#include "numeric/draws.h"
#include "simulate/family.h"

namespace fettle {

struct ComponentHyper {
  double amount_um;  ///< of the part with z = 0, see `Scatter`; of a component that follows another, already multiplied
  double length;
  double likeness;
};

/// What one engine's parts have in common beyond doubt: the few figures that are drawn evenly.
struct Hyper {
  double step_um;                          ///< the real step above the standard
  std::vector<ComponentHyper> components;  ///< in the order of the family
};

/// How many figures of a hyper are really drawn: spans that are not one point, and the step if there is a choice.
[[nodiscard]] std::size_t hyper_dimensions(const EngineFamily& family);

/// The hyper at a point of the unit cube with `hyper_dimensions` sides: an integral over hypers is the mean over this
/// cube. In the order: step; then of each component amount, length, likeness. Needs that many coordinates, each in [0,
/// 1).
[[nodiscard]] Hyper hyper_at(const EngineFamily& family, std::span<const double> unit);

[[nodiscard]] Hyper draw_hyper(const EngineFamily& family, Generator& generator);

/// A matrix, row by row.
struct Grid {
  std::size_t rows;
  std::size_t columns;
  std::vector<double> values;
  [[nodiscard]] double at(std::size_t row, std::size_t column) const { return values[row * columns + column]; }
  [[nodiscard]] double& at(std::size_t row, std::size_t column) { return values[row * columns + column]; }
};

/// Diameters of part i given a hyper: mean + shared·a + own·b_i, in µm above the standard size, by cell of the family's
/// layout; all entries of a and b_i independent and normal (mean 0, sd 1), a common to all parts. Of a family with
/// something one-sided the column stands for |b|. An odd part is not in here.
struct ConditionalTruth {
  std::vector<double> mean;  ///< by cell, step included
  Grid shared;               ///< column 0: as made, common
  Grid own;  ///< column 0: as made, own; then one for each component; then the texture, one for each cell
};

[[nodiscard]] ConditionalTruth conditional_truth(const EngineFamily& family, const Hyper& hyper);

/// One engine as it is.
struct EngineTruth {
  Hyper hyper;
  std::vector<std::vector<double>> sizes_mm;  ///< by part and cell, at 20 °C
  std::optional<std::size_t> odd_part;
  double three_lobe_um;
};

/// The truth of one engine: a stream of its own for each seed, family and number, so that no engine depends on how many
/// others are made, nor on the hand that reads it.
[[nodiscard]] EngineTruth draw_truth(const EngineFamily& family, std::uint64_t seed, std::uint64_t number);

/// The generator of one engine. Part 0: its truth; part 1: the hand's errors.
[[nodiscard]] Generator engine_generator(const EngineFamily& family, std::uint64_t seed, std::uint64_t number,
                                         std::uint64_t part);

/// Says of a truth whether it keeps the family's limits for service, at all counted places, read or not, reckoned by
/// the program's own definitions. A size is judged at the part's real step. Equal is within.
class TruthJudge {
 public:
  /// Needs a family that the reader accepted: every definition can be reckoned on the layout.
  explicit TruthJudge(const EngineFamily& family);

  /// What is compared with limit `limit` of the family, in mm, the step taken off.
  [[nodiscard]] double value(const EngineTruth& truth, std::size_t part, std::size_t limit) const;
  [[nodiscard]] double bound(std::size_t limit) const { return limits_[limit].bound; }
  [[nodiscard]] bool part_keeps(const EngineTruth& truth, std::size_t part) const;
  /// Every part keeps every limit.
  [[nodiscard]] bool keeps(const EngineTruth& truth) const;

 private:
  struct Judged {
    DrawEvaluator evaluator;
    double bound;
    bool moves_with_step;
    LimitSide side;
  };
  std::vector<Judged> limits_;
};

}  // namespace fettle
