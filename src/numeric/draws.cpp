#include "numeric/draws.h"

#include <bit>
#include <cmath>
#include <limits>
#include <string>

#include "base/assertion.h"
#include "numeric/elementary.h"
#include "numeric/ziggurat_tables.h"

namespace fettle {
namespace {

// A draw from beyond where the last layer ends (marsaglia2000 section 2).
double tail_draw(Xoshiro256& bits) {
  const double start = kZigguratX[1];
  for (;;) {
    const double x = -natural_log(uniform_of_bits(bits.next())) / start;
    const double y = -natural_log(uniform_of_bits(bits.next()));
    if (2.0 * y > x * x) return start + x;
  }
}

// Bit 8 of the word becomes the sign; without a branch, which would be guessed wrongly every other time.
double with_sign_of(std::uint64_t word, double positive) {
  return std::bit_cast<double>(std::bit_cast<std::uint64_t>(positive) | (word & 256U) << 55U);
}

double normal_draw(Xoshiro256& bits) {
  for (;;) {
    const std::uint64_t word = bits.next();
    const std::size_t layer = word & 255U;
    const double x = uniform_of_bits(word) * kZigguratX[layer];  // from bits 12 to 63
    if (x < kZigguratX[layer + 1]) return with_sign_of(word, x);
    if (layer == 0) return with_sign_of(word, tail_draw(bits));
    const double part = uniform_of_bits(bits.next());
    const double height = kZigguratF[layer] + part * (kZigguratF[layer + 1] - kZigguratF[layer]);
    if (height < exponential(-0.5 * x * x)) return with_sign_of(word, x);
  }
}

}  // namespace

double Generator::normal() { return normal_draw(bits_); }

void Generator::normals(std::span<double> out) {
  Xoshiro256 bits = bits_;  // a copy of its own stays in registers
  for (double& value : out) value = normal_draw(bits);
  bits_ = bits;
}

// Gamma with scale 1. Shapes below 1 are drawn one higher and multiplied by uniform^(1/shape).
double Generator::gamma(double shape) {
  const bool small = shape < 1.0;
  const double d = (small ? shape + 1.0 : shape) - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double x = normal_draw(bits_);
    const double root = 1.0 + c * x;
    if (root <= 0.0) continue;
    const double v = root * root * root;
    const double u = uniform();
    const double square = x * x;
    const bool sure = u < 1.0 - 0.0331 * square * square;
    if (!sure && natural_log(u) >= 0.5 * square + d * (1.0 - v + natural_log(v))) continue;
    if (!small) return d * v;
    const double logarithm = natural_log(d * v) + natural_log(uniform()) / shape;
    // Never 0: the caller divides by it.
    return logarithm < -708.0 ? std::numeric_limits<double>::min() : exponential(logarithm);
  }
}

double Generator::chi_squared(double degrees_of_freedom) {
  FETTLE_ASSERT(degrees_of_freedom > 0.0 && degrees_of_freedom < 1e300, std::to_string(degrees_of_freedom));
  return 2.0 * gamma(degrees_of_freedom / 2.0);
}

double Generator::student_t(std::optional<double> degrees_of_freedom) {
  const double z = normal();
  if (!degrees_of_freedom) return z;
  return z / std::sqrt(chi_squared(*degrees_of_freedom) / *degrees_of_freedom);
}

void draw(Generator& generator, DrawShape shape, double standard_uncertainty, std::optional<double> degrees_of_freedom,
          std::span<double> out) {
  FETTLE_ASSERT(standard_uncertainty >= 0.0 && standard_uncertainty < 1e300, std::to_string(standard_uncertainty));
  constexpr double kRoot3 = 0x1.bb67ae8584caap+0;
  constexpr double kRoot6 = 0x1.3988e1409212ep+1;
  switch (shape) {
    case DrawShape::normal:
      if (degrees_of_freedom) {
        for (double& value : out) value = generator.student_t(degrees_of_freedom);
      } else {
        generator.normals(out);
      }
      for (double& value : out) value *= standard_uncertainty;
      return;
    case DrawShape::rectangular:
      for (double& value : out) value = generator.rectangular() * (kRoot3 * standard_uncertainty);
      return;
    case DrawShape::triangular:
      for (double& value : out) value = generator.triangular() * (kRoot6 * standard_uncertainty);
      return;
  }
}

}  // namespace fettle
