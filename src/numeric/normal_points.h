#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "numeric/kronecker.h"

namespace fettle {

/// Evenly spread standard normal points in several independently shifted sets, kept so that many integrals of one question share
/// them. Coordinates up to KroneckerPoints::kMostDimensions are Kronecker points (prime roots) through the normal quantile; further
/// ones are plain draws. The same seed gives the same bits on every machine, in whatever order the points are asked for.
class NormalPoints {
 public:
  explicit NormalPoints(std::uint64_t seed);

  /// Independent shifts: their spread tells the error of an average.
  static constexpr std::size_t kSets = 8;

  /// Coordinate `dimension` of points `first` to `first + count` of a set.
  [[nodiscard]] std::span<const double> coordinate(std::size_t set, std::size_t dimension, std::size_t first, std::size_t count);

  [[nodiscard]] std::uint64_t seed() const { return seed_; }

 private:
  void grow(std::vector<double>& column, std::size_t set, std::size_t dimension, std::size_t count) const;

  std::uint64_t seed_;
  std::vector<KroneckerPoints> even_;         ///< by set
  std::vector<std::vector<double>> columns_[kSets];  ///< by dimension
};

}  // namespace fettle
