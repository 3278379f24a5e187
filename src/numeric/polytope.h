#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "numeric/mixture_chance.h"

namespace fettle {

/// The law of one block's combinations in a form that is quick on many points: value of combination k = mean + shared η + lower · z,
/// z ~ N(0, I), the first z being the direction of the nearest bound. Regions that are kept (or broken) for sure fall away.
class LineProblem {
 public:
  /// `own` is the covariance that is left given η; `gain` (cells x common) may be empty, then η is not used.
  LineProblem(std::span<const double> mean, std::span<const double> own, std::span<const double> gain, std::size_t cells,
              std::size_t common, const std::vector<Region>& regions);

  /// The chance, where no integration is needed.
  [[nodiscard]] const std::optional<double>& certain() const { return certain_; }
  /// How many coordinates the points need beside η and the line's own.
  [[nodiscard]] std::size_t dimensions() const { return rank_ == 0 ? 0 : rank_ - 1; }

  struct Interval {
    double low;
    double high;
  };
  /// Vectors that are used over and over.
  struct Workspace {
    std::vector<double> at;
    std::vector<Interval> by_region;
  };
  /// The chance at each point, into `out`: `eta[c]` and `z[j]` hold one coordinate of all points.
  void along_lines(std::span<const std::span<const double>> eta, std::span<const std::span<const double>> z,
                   std::span<double> out, Workspace& work) const;

 private:
  struct Row {
    double mean;
    double most;  ///< of a half-space
    std::size_t region;
  };
  struct Pair {
    std::size_t first;  ///< index of its two rows, one after the other
    double radius;
    std::size_t region;
  };
  void order_and_factor(std::vector<double> covariance);
  void answer_single_bound();

  std::size_t common_;
  std::vector<Row> rows_;             ///< half-spaces first, then the pairs of the discs
  std::size_t half_spaces_ = 0;
  std::vector<Pair> pairs_;
  std::vector<bool> outside_;         ///< by region
  std::vector<bool> asks_;            ///< by region: whether any of its bounds is open
  std::vector<double> shared_;        ///< rows x common
  std::vector<double> lower_;         ///< rows x rank
  std::size_t rank_ = 0;
  std::size_t nearest_ = 0;
  std::optional<double> certain_;
};

}  // namespace fettle
