#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include "numeric/xoshiro.h"

namespace fettle {

/// Random draws of one stream. The same seed and stream number give the same bits on every machine: no function of the
/// system's mathematics library takes part, but for the square root, which is exact everywhere. Work is cut into
/// blocks, each with its own stream number, so that the result does not depend on how many hands share the blocks.
class Generator {
 public:
  Generator(std::uint64_t seed, std::uint64_t stream) : bits_(Xoshiro256::stream(seed, stream)) {}

  /// 64 random bits.
  [[nodiscard]] std::uint64_t next() { return bits_.next(); }
  /// In (0, 1), never an end: the odd multiples of 2^-53, all equally likely.
  [[nodiscard]] double uniform() { return uniform_of_bits(bits_.next()); }
  /// Mean 0, standard deviation 1. Source: marsaglia2000 with 256 layers; layer, sign and distance are taken from
  /// different bits of one word, so that they do not depend on each other. Kept by Draws.NormalHasItsDistribution.
  [[nodiscard]] double normal();
  /// The same draws in a row, without a call for each.
  void normals(std::span<double> out);
  /// Rectangular in (-1, 1): standard deviation 1 / sqrt 3.
  [[nodiscard]] double rectangular() { return 2.0 * uniform() - 1.0; }
  /// Triangular in (-1, 1), likeliest at 0: standard deviation 1 / sqrt 6.
  [[nodiscard]] double triangular() {
    const double first = uniform();
    return first - uniform();
  }
  /// Chi-squared for any real degrees of freedom. Needs 0 < degrees_of_freedom < 1e300, else InternalError; for tiny
  /// ones a draw is never 0 but may be the smallest normal number. Source: marsaglia2000gamma, on our own functions.
  /// Kept by Draws.ChiSquaredHasItsDistribution.
  [[nodiscard]] double chi_squared(double degrees_of_freedom);
  /// Student's t with scale 1: normal / sqrt(chi-squared / degrees). None given means infinitely many: a normal draw.
  /// Kept by Draws.StudentTHasItsDistribution.
  [[nodiscard]] double student_t(std::optional<double> degrees_of_freedom);

 private:
  [[nodiscard]] double gamma(double shape);

  Xoshiro256 bits_;
};

enum class DrawShape { normal, rectangular, triangular };

/// Fills `out` with draws of mean 0, in the unit of `standard_uncertainty`. A normal shape with degrees of freedom
/// gives Student's t with that scale (jcgm101 6.4.9: what is known from a few repeats); its standard deviation is
/// larger by sqrt(v / (v - 2)). The rectangle and the triangle are bounded by nature and do not look at the degrees of
/// freedom. Needs 0 <= standard_uncertainty, finite, else InternalError.
void draw(Generator& generator, DrawShape shape, double standard_uncertainty, std::optional<double> degrees_of_freedom,
          std::span<double> out);

}  // namespace fettle
