#include "numeric/elementary.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <string>

#include "base/assertion.h"

namespace fettle {
namespace {

// ln 2 in two parts; the first has its low bits zero, so that k·high is exact.
constexpr double kLn2High = 0x1.62e42fee00000p-1;
constexpr double kLn2Low = 0x1.a39ef35793c76p-33;
constexpr double kLargestExponent = 700.0;

double power_of_two(int k) {
  return std::bit_cast<double>(static_cast<std::uint64_t>(k + 1023) << 52U);
}

}  // namespace

double exponential(double x) {
  x = std::clamp(x, -kLargestExponent, kLargestExponent);
  const int k = static_cast<int>(x / (kLn2High + kLn2Low) + (x < 0.0 ? -0.5 : 0.5));
  const double r = (x - k * kLn2High) - k * kLn2Low;
  double sum = 1.0;
  for (int n = 14; n >= 1; --n) sum = 1.0 + r * sum / n;  // |r| ≤ 0.347: the next term is below 1e-18
  return sum * power_of_two(k);
}

double natural_log(double x) {
  const auto bits = std::bit_cast<std::uint64_t>(x);
  const auto biased = static_cast<int>(bits >> 52U);
  FETTLE_ASSERT(biased >= 1 && biased <= 2046, "logarithm of " + std::to_string(x));
  int k = biased - 1023;
  double m = std::bit_cast<double>((bits & 0x000FFFFFFFFFFFFFU) | 0x3FF0000000000000U);
  constexpr double kSqrt2 = 1.4142135623730951;
  if (m > kSqrt2) {
    m *= 0.5;
    ++k;
  }
  const double f = m - 1.0;
  const double s = f / (2.0 + f);
  const double z = s * s;
  double sum = 0.0;
  for (int n = 23; n >= 3; n -= 2) sum = z * (1.0 / n + sum);  // z ≤ 0.0295: the next term is below 1e-19
  // ln m = f − s·(f − 2·sum)… in the form 2s + 2s·sum, with the rounding of k·ln 2 kept apart.
  return k * kLn2High + (2.0 * s + (2.0 * s * sum + k * kLn2Low));
}

}  // namespace fettle
