#pragma once

#include <optional>
#include <string>
#include <vector>

#include "entry/text_fault.h"
#include "entry/typed_quantity.h"

namespace fettle {

/// The number at the front of a text, as far as it goes, before its unit is known.
struct TypedNumber {
  bool negative;
  bool has_sign;
  Ratio magnitude;     ///< with a mark taken as the decimal mark
  int decimals;
  std::size_t end;     ///< first code point behind the number
  /// Set if the one mark could also group thousands: the value without the mark, and which mark it is.
  std::optional<Ratio> grouped;
  DecimalMark mark;
  std::size_t mark_at;  ///< where that mark stands
};

/// Reads sign, digits, marks and fractions from `points` at `from`. Code points are in plain form (entry/characters.h). Faults:
/// entry.no_number, .not_a_number, .exponent, .thousands, .two_marks, .mark_at_end, .two_numbers, .too_many_digits,
/// .zero_denominator, .improper_fraction, .decimal_and_fraction.
[[nodiscard]] std::optional<TypedNumber> read_number(const std::vector<char32_t>& points, std::size_t from,
                                                     std::vector<TextFault>& faults);

}  // namespace fettle
