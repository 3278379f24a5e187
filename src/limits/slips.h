#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// What a hand or a press does to a figure. In the order in which they are believed.
enum class SlipSort { sign, point, leading, swapped, digit };

/// A figure that may have been meant. `at`: which digit, counted from the decimal point (0 is the first before it, -1 the first behind it).
struct Slip {
  SlipSort sort;
  int at;
  char digit;          ///< of digit and leading: what stands there instead
  std::string digits;  ///< the figure as it may have been meant
};

/// Every figure that is one slip away from `digits` ("-0.0372"): the sign lost, the point moved by one or two places, the leading digit lost or
/// one too many, two neighbours changed about, one digit wrong.
[[nodiscard]] std::vector<Slip> slips_of(std::string_view digits);

/// The same slip in another figure (the other end of a range); nothing where it has no such place.
[[nodiscard]] std::string same_slip(const Slip& slip, std::string_view digits);

}  // namespace fettle
