#include "units/print.h"

#include <array>
#include <charconv>
#include <cmath>

#include "base/assertion.h"
#include "units/length.h"

namespace fettle {

std::string print_fixed(double value, int decimals) {
  FETTLE_ASSERT(std::isfinite(value), "a figure that is no number left the computation");
  std::array<char, 400> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
  FETTLE_ASSERT(error == std::errc(), "figure too long to print");
  std::string text(buffer.data(), end);
  const bool zero = text.find_first_of("123456789") == std::string::npos;
  return zero && text.front() == '-' ? text.substr(1) : text;
}

std::string print_length(double millimetres, UnitId unit) {
  const double counts = unit_definition(unit).factor.to_double();
  return print_fixed(millimetres * static_cast<double>(Length::kCountsPerMillimetre) / counts, fine_decimals(unit));
}

}  // namespace fettle
