#pragma once

#include <compare>
#include <cstdint>

#include "base/message.h"
#include "units/ratio.h"
#include "units/unit.h"

namespace fettle {

/// An exact length: a 64-bit count of 0.1 nm (1 mm = 10 000 000 counts, 1 in = 254 000 000 counts, both exactly).
class Length {
 public:
  static constexpr std::int64_t kCountsPerMillimetre = 10'000'000;
  static constexpr std::int64_t kCountsPerInch = 254'000'000;

  constexpr Length() = default;
  [[nodiscard]] static constexpr Length counts(std::int64_t counts) {
    Length out;
    out.counts_ = counts;
    return out;
  }
  [[nodiscard]] constexpr std::int64_t counts() const { return counts_; }
  [[nodiscard]] Ratio ratio() const { return Ratio(counts_); }
  /// For estimates only; exact values stay counts.
  [[nodiscard]] double millimetres() const {
    return static_cast<double>(counts_) / static_cast<double>(kCountsPerMillimetre);
  }

  friend constexpr Length operator+(Length a, Length b) { return counts(a.counts_ + b.counts_); }
  friend constexpr Length operator-(Length a, Length b) { return counts(a.counts_ - b.counts_); }
  constexpr Length operator-() const { return counts(-counts_); }
  friend constexpr auto operator<=>(Length, Length) = default;

 private:
  std::int64_t counts_ = 0;
};

/// A count of 0.1 nm, whole or not, as decimal text in a length unit: in_unit(84097800·…, mm, 4) = "84.0978".
[[nodiscard]] std::string in_unit(const Ratio& counts, UnitId unit, int decimals);

/// The same as a sentence argument with the unit's symbol.
[[nodiscard]] Argument length_argument(std::string name, const Ratio& counts, UnitId unit, int decimals);

/// How many decimals show a length to about a tenth of a micrometre: 4 for mm, 5 for in, 1 for µm.
[[nodiscard]] int fine_decimals(UnitId unit);

}  // namespace fettle
