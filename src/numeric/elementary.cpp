#include "numeric/elementary.h"

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <type_traits>

#include "base/assertion.h"

namespace fettle {
namespace {

// ln 2 in two parts. The high part has 41 bits, so that its product with any binary exponent is exact.
constexpr double kLn2High = 0x1.62e42fefa3p-1;
template <class T>
constexpr T ln2_low() {
  if constexpr (std::is_same_v<T, long double>) {
    return 0x9ef35793c7673008p-105L;
  } else {
    return 0x1.3de6af278ece6p-42;
  }
}

// Far enough for |r| <= ln 2 / 2 in the wider type: the next term is under 2^-92.
constexpr int kExponentialTerms = 20;
// 1/2!, 1/3!, ... Every factorial up to 20! is exact in double, so each quotient is rounded once.
template <class T>
constexpr std::array<T, kExponentialTerms - 1> inverse_factorials() {
  std::array<T, kExponentialTerms - 1> out{};
  T factorial = 1;
  for (int k = 2; k <= kExponentialTerms; ++k) {
    factorial *= static_cast<T>(k);
    out[static_cast<std::size_t>(k - 2)] = 1 / factorial;
  }
  return out;
}

// 2/3, 2/5, ... for |s| <= 0.1716: the next term is under 2^-86.
constexpr int kLogTerms = 16;
template <class T>
constexpr std::array<T, kLogTerms> log_coefficients() {
  std::array<T, kLogTerms> out{};
  for (int k = 0; k < kLogTerms; ++k) out[static_cast<std::size_t>(k)] = 2 / static_cast<T>(2 * k + 3);
  return out;
}

template <class T, std::size_t N>
T horner(const std::array<T, N>& coefficients, T x) {
  T sum = coefficients[N - 1];
  for (std::size_t k = N - 1; k-- > 0;) sum = sum * x + coefficients[k];
  return sum;
}

template <class T>
struct Split {
  T mantissa;  // in [1/2, 1)
  int exponent;
};

Split<double> split(double x) {
  int extra = 0;
  if (x < std::numeric_limits<double>::min()) {
    x *= 0x1p54;
    extra = 54;
  }
  const auto bits = std::bit_cast<std::uint64_t>(x);
  const int exponent = static_cast<int>(bits >> 52U) - 1022 - extra;
  const std::uint64_t mantissa = (bits & 0x000f'ffff'ffff'ffffU) | 0x3fe0'0000'0000'0000U;
  return {std::bit_cast<double>(mantissa), exponent};
}

// The layout of the wider type differs between machines; frexp is exact on all of them.
Split<long double> split(long double x) {
  int exponent = 0;
  const long double mantissa = std::frexp(x, &exponent);
  return {mantissa, exponent};
}

}  // namespace

template <class T>
T exponential(T x) {
  FETTLE_ASSERT(x <= kExponentialMost, "exponential of NaN or of a number above 709.78");
  if (x < -745.2) return 0;
  const int k = static_cast<int>(x * 0x1.71547652b82fep+0 + (x < 0 ? -0.5 : 0.5));
  const T high = x - static_cast<T>(k) * kLn2High;
  const T low = static_cast<T>(k) * ln2_low<T>();
  const T r = high - low;
  const T lost = (high - r) - low;
  static constexpr auto kCoefficients = inverse_factorials<T>();
  const T reduced = 1 + (r + (lost + r * r * horner(kCoefficients, r)));
  // Two factors: neither overflows, and a subnormal answer is rounded once only.
  const int half = k / 2;
  return reduced * power_of_two(half) * power_of_two(k - half);
}

template <class T>
T natural_log(T x) {
  FETTLE_ASSERT(x > 0 && x <= std::numeric_limits<T>::max(), "logarithm of a number that is not positive and finite");
  auto [mantissa, exponent] = split(x);
  if (mantissa < 0x1.6a09e667f3bcdp-1) {
    mantissa *= 2;
    --exponent;
  }
  const T k = static_cast<T>(exponent);
  const T f = mantissa - 1;
  const T s = f / (2 + f);
  const T z = s * s;
  const T half_square = f * f / 2;
  static constexpr auto kCoefficients = log_coefficients<T>();
  const T rest = z * horner(kCoefficients, z);
  return k * kLn2High - ((half_square - (s * (half_square + rest) + k * ln2_low<T>())) - f);
}

template double exponential(double);
template long double exponential(long double);
template double natural_log(double);
template long double natural_log(long double);

}  // namespace fettle
