#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "form/expansion.h"
#include "form/two_lobe.h"

namespace fettle {

/// The same expansion over estimates, laid out flat: it runs on many thousands of draws.
class DrawEvaluator {
 public:
  explicit DrawEvaluator(const Expansion& expansion);

  /// `value` in mm, in base units, or a pure number for a ratio; not a number where a formula has no figure, so that it keeps no bound.
  /// `item` is the form (or the lobe station) that attains it.
  struct Drawn {
    double value;
    std::size_t item;
  };
  /// Sizes in mm by cell, the whole layout long; cells that are not used may hold anything.
  [[nodiscard]] Drawn attain(std::span<const double> sizes_mm) const;
  [[nodiscard]] double operator()(std::span<const double> sizes_mm) const { return attain(sizes_mm).value; }

  /// The same for many draws at once: `sizes_mm[cell]` is where the draws of that cell begin, one for each place of `out`; cells that
  /// are not used may be null.
  void evaluate_many(std::span<const double* const> sizes_mm, std::span<double> out) const;

  /// One past the largest cell that is looked at.
  [[nodiscard]] std::size_t cells_needed() const { return cells_needed_; }

 private:
  struct Lobe {
    std::vector<std::size_t> cells;
    TwoLobeRows rows;
  };
  [[nodiscard]] Drawn attain_lobe(std::span<const double> sizes_mm) const;

  [[nodiscard]] Drawn attain_formula(std::span<const double> sizes) const;
  void evaluate_one_by_one(std::span<const double* const> sizes_mm, std::span<double> out) const;

  bool least_;
  std::vector<double> constants_;
  std::vector<std::uint32_t> starts_;  ///< of each form's terms, and one past the last
  std::vector<std::uint32_t> cells_;
  std::vector<double> coefficients_;
  std::vector<Lobe> lobes_;
  std::vector<Formula> formulas_;
  std::vector<std::size_t> used_;
  std::size_t cells_needed_;
};

}  // namespace fettle
