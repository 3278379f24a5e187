#pragma once

#include <cstdint>
#include <span>
#include <vector>

namespace fettle {

/// How far the coordinates of Kronecker points step, in turns.
enum class KroneckerSteps {
  prime_roots,  ///< square roots of the first primes: for any number of dimensions
  golden_ratio  ///< g^-j, g the positive root of g^(d+1) = g + 1; the golden ratio for one dimension. For few
                ///< dimensions
};

/// Low-discrepancy points in the open unit cube: coordinate j of point n is shift_j + n step_j without its whole part.
/// The shift is random, from the seed, so that different seeds give independent estimates of the error. Same bits on
/// every machine: whole-number arithmetic, and a square root that is exact everywhere. Needs 1 <= dimension <= 256,
/// with golden_ratio <= 24, else InternalError; good for up to 2^40 points. The golden ratio is refused further up
/// because some of its powers come close to simple fractions: in 256 dimensions one coordinate of 4096 points has twice
/// as many in some sixteenths as it should and none in others. Error: rms over seeds at 4096 points against plain
/// draws, product of linear factors: prime roots 0.04 in 2 dimensions, 0.2 in 6 and 12, 0.3 in 24; golden ratio 0.04,
/// 0.3, 0.6, 0.8. From 100 dimensions on there is little gain. A sixteenth of a coordinate holds 256 of 4096 points
/// within 8 up to 48 dimensions and within 24 up to 256 (golden ratio: 16 in 24). Source: niederreiter1992 chapter 3
/// (Kronecker sequences), cranley1976 (random shift), richtmyer1951 (prime_roots), roberts2018 (golden_ratio). Kept by
/// Kronecker.BeatsPlainDrawsOnASmoothIntegrand and Kronecker.CoordinatesAreEven.
class KroneckerPoints {
 public:
  static constexpr int kMostDimensions = 256;
  static constexpr int kMostGoldenDimensions = 24;

  KroneckerPoints(int dimension, std::uint64_t seed, KroneckerSteps steps);

  [[nodiscard]] int dimension() const { return static_cast<int>(steps_.size()); }
  /// Writes point `number`, in any order of numbers. `out` must have `dimension` places, else InternalError. Every
  /// coordinate is an odd multiple of 2^-53.
  void point(std::uint64_t number, std::span<double> out) const;
  /// One coordinate of point `number`, the same as in `point`. Needs 0 <= coordinate < dimension. The first coordinates do not hang on how
  /// many there are with prime roots.
  [[nodiscard]] double at(std::size_t coordinate, std::uint64_t number) const;

 private:
  std::vector<std::uint64_t> steps_;  // in units of 2^-64 of a turn
  std::vector<std::uint64_t> shift_;
};

}  // namespace fettle
