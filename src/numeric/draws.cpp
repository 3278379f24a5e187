#include "numeric/draws.h"

#include <bit>
#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/elementary.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

std::uint64_t splitmix64(std::uint64_t& state) {
  state += 0x9e3779b97f4a7c15U;
  std::uint64_t z = state;
  z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
  z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
  return z ^ (z >> 31U);
}

/// Gamma with scale 1 (Marsaglia and Tsang); below shape 1 one higher, times uniform^(1/shape).
double gamma_draw(Generator& generator, double shape) {
  if (shape < 1.0) {
    const double higher = gamma_draw(generator, shape + 1.0);
    return higher * exponential(natural_log(generator.uniform()) / shape);
  }
  const double d = shape - 1.0 / 3.0;
  const double c = 1.0 / std::sqrt(9.0 * d);
  for (;;) {
    const double x = generator.normal();
    const double root = 1.0 + c * x;
    if (root <= 0.0) continue;
    const double v = root * root * root;
    const double log_u = natural_log(generator.uniform());
    if (log_u < 0.5 * x * x + d - d * v + d * natural_log(v)) return d * v;
  }
}

}  // namespace

Generator::Generator(std::uint64_t seed, std::uint64_t stream) : state_{} {
  std::uint64_t mixed = splitmix64(seed) ^ (stream * 0xd1342543de82ef95U + 1U);
  for (std::uint64_t& word : state_) word = splitmix64(mixed);
}

std::uint64_t Generator::next() {
  auto& [a, b, c, d] = state_;
  const std::uint64_t result = std::rotl(a + d, 23) + a;
  const std::uint64_t t = b << 17U;
  c ^= a;
  d ^= b;
  b ^= c;
  a ^= d;
  c ^= t;
  d = std::rotl(d, 45);
  return result;
}

double Generator::uniform() { return (static_cast<double>(next() >> 12U) + 0.5) * 0x1p-52; }

double Generator::normal() { return normal_quantile(uniform()); }

double Generator::chi_squared(double degrees_of_freedom) {
  FETTLE_ASSERT(degrees_of_freedom > 0.0, std::to_string(degrees_of_freedom));
  return 2.0 * gamma_draw(*this, degrees_of_freedom / 2.0);
}

void draw(Generator& generator, DrawShape shape, double standard_uncertainty, std::optional<double> degrees_of_freedom,
          std::vector<double>& out) {
  constexpr double kRoot3 = 1.7320508075688772;
  constexpr double kRoot6 = 2.449489742783178;
  switch (shape) {
    case DrawShape::normal:
      for (double& value : out) {
        value = standard_uncertainty * generator.normal();
        if (degrees_of_freedom) value /= std::sqrt(generator.chi_squared(*degrees_of_freedom) / *degrees_of_freedom);
      }
      return;
    case DrawShape::rectangular:
      for (double& value : out) value = standard_uncertainty * kRoot3 * (2.0 * generator.uniform() - 1.0);
      return;
    case DrawShape::triangular:
      for (double& value : out) {
        const double first = generator.uniform();
        value = standard_uncertainty * kRoot6 * (first + generator.uniform() - 1.0);
      }
      return;
  }
}

}  // namespace fettle
