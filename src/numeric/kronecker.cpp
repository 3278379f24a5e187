#include "numeric/kronecker.h"

#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/xoshiro.h"

namespace fettle {
namespace {

double power(double base, int exponent) {
  double out = 1.0;
  for (int k = 0; k < exponent; ++k) out *= base;
  return out;
}

// The positive root of g^(d+1) = g + 1 by bisection on [1, 2]: 52 halvings reach the last bit, and every machine takes
// the same ones.
double golden_generator(int dimension) {
  double low = 1.0;
  double high = 2.0;
  for (int k = 0; k < 52; ++k) {
    const double middle = (low + high) / 2.0;
    (power(middle, dimension + 1) < middle + 1.0 ? low : high) = middle;
  }
  return low;
}

std::vector<double> golden_steps(int dimension) {
  const double inverse = 1.0 / golden_generator(dimension);
  std::vector<double> steps;
  double step = 1.0;
  for (int j = 0; j < dimension; ++j) {
    step *= inverse;
    steps.push_back(step);
  }
  return steps;
}

bool is_prime(int number) {
  for (int divisor = 2; divisor * divisor <= number; ++divisor) {
    if (number % divisor == 0) return false;
  }
  return true;
}

std::vector<double> all_prime_steps() {
  std::vector<double> steps;
  for (int number = 2; steps.size() < KroneckerPoints::kMostDimensions; ++number) {
    if (!is_prime(number)) continue;
    const double root = std::sqrt(static_cast<double>(number));
    steps.push_back(root - std::floor(root));
  }
  return steps;
}

std::vector<double> prime_steps(int dimension) {
  static const std::vector<double> all = all_prime_steps();  // found once: they are asked for at every judgement
  return {all.begin(), all.begin() + dimension};
}

std::vector<double> steps_of(KroneckerSteps steps, int dimension) {
  const bool golden = steps == KroneckerSteps::golden_ratio;
  const int most = golden ? KroneckerPoints::kMostGoldenDimensions : KroneckerPoints::kMostDimensions;
  FETTLE_ASSERT(dimension >= 1 && dimension <= most, std::to_string(dimension) + " of " + std::to_string(most));
  return golden ? golden_steps(dimension) : prime_steps(dimension);
}

}  // namespace

KroneckerPoints::KroneckerPoints(int dimension, std::uint64_t seed, KroneckerSteps steps) {
  // The stream number is one that no block of draws reaches.
  Xoshiro256 bits = Xoshiro256::stream(seed, 0xffff'ffff'0000'0000U);
  for (const double step : steps_of(steps, dimension)) {
    steps_.push_back(static_cast<std::uint64_t>(step * 0x1p64));
    shift_.push_back(bits.next());
  }
}

void KroneckerPoints::point(std::uint64_t number, std::span<double> out) const {
  FETTLE_ASSERT(out.size() == steps_.size(), std::to_string(out.size()));
  for (std::size_t j = 0; j < out.size(); ++j) out[j] = at(j, number);
}

double KroneckerPoints::at(std::size_t coordinate, std::uint64_t number) const {
  return uniform_of_bits(shift_[coordinate] + number * steps_[coordinate]);  // modulo a turn
}

}  // namespace fettle
