#pragma once

#include <bit>
#include <cstdint>

namespace fettle {

/// Largest argument of `exponential`: just below ln of the largest double.
inline constexpr double kExponentialMost = 709.78;

/// 2^exponent by its bit pattern. Needs -1022 <= exponent <= 1023.
[[nodiscard]] constexpr double power_of_two(int exponent) {
  return std::bit_cast<double>(static_cast<std::uint64_t>(exponent + 1023) << 52U);
}

/// e^x from additions, multiplications and bit patterns alone, so that every machine gives the same bits (the system's
/// own function does not: it picks fused multiplication where the processor has it). Units: none. Needs x <=
/// kExponentialMost and not NaN, else InternalError; below -745.2 the answer is 0. Error at most 1 unit in the last
/// place where the answer is a normal number, at most 1 step of the subnormal grid below. Source: cody1980 chapter 6
/// (two-part reduction by ln 2), then the Taylor series, dlmf 4.2.19. Kept by Elementary.ExponentialIsWithinOneUlp. T:
/// double, long double (same range).
template <class T>
[[nodiscard]] T exponential(T x);

/// Natural logarithm from additions, multiplications, one division and bit patterns alone.
/// Units: none. Needs 0 < x, finite, else InternalError.
/// Error at most 1 unit in the last place over all positive doubles, subnormal ones included.
/// Source: cody1980 chapter 5 (splitting off the exponent), then twice the inverse hyperbolic tangent, dlmf 4.6.4.
/// Kept by Elementary.NaturalLogIsWithinOneUlp. T: double, long double.
template <class T>
[[nodiscard]] T natural_log(T x);

}  // namespace fettle
