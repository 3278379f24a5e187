#include "units/ratio.h"

#include <algorithm>
#include <limits>

#include "base/assertion.h"

namespace fettle {
namespace {

Int128 magnitude(Int128 value) { return value < 0 ? -value : value; }

Int128 greatest_common_divisor(Int128 a, Int128 b) {
  a = magnitude(a);
  b = magnitude(b);
  while (b != 0) {
    const Int128 rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

Int128 checked_product(Int128 a, Int128 b) {
  Int128 product = 0;
  FETTLE_ASSERT(!__builtin_mul_overflow(a, b, &product), "exact product over 127 bits");
  return product;
}

Int128 checked_sum(Int128 a, Int128 b) {
  Int128 sum = 0;
  FETTLE_ASSERT(!__builtin_add_overflow(a, b, &sum), "exact sum over 127 bits");
  return sum;
}

Int128 floor_division(Int128 a, Int128 b) {
  const Int128 quotient = a / b;
  return (a % b != 0 && a < 0) ? quotient - 1 : quotient;
}

/// Compares a/b with c/d (b, d > 0) by whole parts and reciprocals of what is left: no product, so no overflow.
std::strong_ordering compare(Int128 a, Int128 b, Int128 c, Int128 d) {
  const Int128 whole_ab = floor_division(a, b);
  const Int128 whole_cd = floor_division(c, d);
  if (whole_ab != whole_cd) return whole_ab <=> whole_cd;
  const Int128 rest_ab = a - whole_ab * b;
  const Int128 rest_cd = c - whole_cd * d;
  if (rest_ab == 0 || rest_cd == 0) return rest_ab <=> rest_cd;
  return compare(d, rest_cd, b, rest_ab);
}

}  // namespace

Ratio Ratio::of(Int128 numerator, Int128 denominator) {
  FETTLE_ASSERT(denominator != 0, "denominator zero");
  const Int128 divisor = greatest_common_divisor(numerator, denominator);
  Ratio out;
  out.numerator_ = numerator / divisor;
  out.denominator_ = denominator / divisor;
  if (out.denominator_ < 0) {
    out.numerator_ = -out.numerator_;
    out.denominator_ = -out.denominator_;
  }
  return out;
}

Ratio Ratio::power_of_ten(int exponent) {
  Int128 power = 1;
  for (int i = 0; i < (exponent < 0 ? -exponent : exponent); ++i) power = checked_product(power, 10);
  return exponent < 0 ? of(1, power) : Ratio(power);
}

std::optional<std::int64_t> Ratio::whole64() const {
  if (!is_whole() || numerator_ > std::numeric_limits<std::int64_t>::max() ||
      numerator_ < std::numeric_limits<std::int64_t>::min()) {
    return std::nullopt;
  }
  return static_cast<std::int64_t>(numerator_);
}

double Ratio::to_double() const { return static_cast<double>(numerator_) / static_cast<double>(denominator_); }

Ratio Ratio::rounded() const {
  const Int128 size = magnitude(numerator_);
  Int128 whole = size / denominator_;
  if (const Int128 rest = size % denominator_; rest >= denominator_ - rest) ++whole;
  return Ratio(numerator_ < 0 ? -whole : whole);
}

std::string Ratio::decimal(int decimals) const {
  FETTLE_ASSERT(decimals >= 0 && decimals <= 18, "decimals " + std::to_string(decimals));
  // Whole part first, so that large values with many decimals do not overflow.
  const Int128 size = magnitude(numerator_);
  const Ratio fraction = of(size % denominator_, denominator_);
  const Int128 scale = power_of_ten(decimals).numerator();
  Int128 whole = size / denominator_;
  Int128 digits = (fraction * Ratio(scale)).rounded().numerator();
  if (digits == scale) {
    ++whole;
    digits = 0;
  }
  std::string text = to_text(whole);
  if (decimals > 0) {
    std::string behind = to_text(digits);
    text += '.';
    text += std::string(static_cast<std::size_t>(decimals) - behind.size(), '0') + behind;
  }
  const bool shows_zero = whole == 0 && digits == 0;
  return numerator_ < 0 && !shows_zero ? "-" + text : text;
}

Ratio operator+(const Ratio& a, const Ratio& b) {
  const Int128 divisor = greatest_common_divisor(a.denominator_, b.denominator_);
  const Int128 left = checked_product(a.numerator_, b.denominator_ / divisor);
  const Int128 right = checked_product(b.numerator_, a.denominator_ / divisor);
  return Ratio::of(checked_sum(left, right), checked_product(a.denominator_, b.denominator_ / divisor));
}

Ratio operator-(const Ratio& a, const Ratio& b) { return a + (-b); }

Ratio operator*(const Ratio& a, const Ratio& b) {
  const Ratio crossed_a = Ratio::of(a.numerator_, b.denominator_);
  const Ratio crossed_b = Ratio::of(b.numerator_, a.denominator_);
  return Ratio::of(checked_product(crossed_a.numerator_, crossed_b.numerator_),
                   checked_product(crossed_a.denominator_, crossed_b.denominator_));
}

Ratio operator/(const Ratio& a, const Ratio& b) {
  FETTLE_ASSERT(b.numerator_ != 0, "division by zero");
  return a * Ratio::of(b.denominator_, b.numerator_);
}

Ratio Ratio::operator-() const {
  Ratio out = *this;
  out.numerator_ = -out.numerator_;
  return out;
}

std::strong_ordering operator<=>(const Ratio& a, const Ratio& b) {
  return compare(a.numerator_, a.denominator_, b.numerator_, b.denominator_);
}

std::string to_text(Int128 value) {
  if (value == 0) return "0";
  std::string text;
  const bool negative = value < 0;
  while (value != 0) {
    const auto digit = static_cast<int>(value % 10);
    text += static_cast<char>('0' + (digit < 0 ? -digit : digit));
    value /= 10;
  }
  if (negative) text += '-';
  std::reverse(text.begin(), text.end());
  return text;
}

}  // namespace fettle
