#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>

namespace fettle {

__extension__ using Int128 = __int128;

/// An exact fraction in lowest terms, denominator positive. Exact or nothing: an overflow of 127 bits is an InternalError;
/// callers bound their inputs (typed text is at most 18 digits, at most 64 readings of one station are averaged).
class Ratio {
 public:
  constexpr Ratio() = default;
  explicit Ratio(Int128 whole) : numerator_(whole) {}
  /// `denominator` must not be zero.
  [[nodiscard]] static Ratio of(Int128 numerator, Int128 denominator);
  [[nodiscard]] static Ratio power_of_ten(int exponent);

  [[nodiscard]] Int128 numerator() const { return numerator_; }
  [[nodiscard]] Int128 denominator() const { return denominator_; }
  [[nodiscard]] bool is_whole() const { return denominator_ == 1; }
  [[nodiscard]] int sign() const { return numerator_ < 0 ? -1 : numerator_ > 0 ? 1 : 0; }
  /// The whole value if it is one and fits 64 bits.
  [[nodiscard]] std::optional<std::int64_t> whole64() const;
  /// Nearest double, to the last bit or the one beside it.
  [[nodiscard]] double to_double() const;
  /// Rounded half away from zero to `decimals` (0 to 18) places, with a point: "-84.0978". A value that rounds to zero has no sign.
  [[nodiscard]] std::string decimal(int decimals) const;
  /// Nearest whole, half away from zero.
  [[nodiscard]] Ratio rounded() const;

  friend Ratio operator+(const Ratio& a, const Ratio& b);
  friend Ratio operator-(const Ratio& a, const Ratio& b);
  friend Ratio operator*(const Ratio& a, const Ratio& b);
  /// b must not be zero.
  friend Ratio operator/(const Ratio& a, const Ratio& b);
  Ratio operator-() const;
  friend bool operator==(const Ratio&, const Ratio&) = default;
  friend std::strong_ordering operator<=>(const Ratio& a, const Ratio& b);

 private:
  Int128 numerator_ = 0;
  Int128 denominator_ = 1;
};

[[nodiscard]] inline Ratio absolute(const Ratio& value) { return value.sign() < 0 ? -value : value; }

/// "-12" for a 128-bit whole.
[[nodiscard]] std::string to_text(Int128 value);

}  // namespace fettle
