#include "units/quantity.h"

namespace fettle {

std::optional<Length> exact_length(const Quantity& quantity) {
  if (quantity.dimension() != Dimension::length) return std::nullopt;
  const auto counts = quantity.in_base().whole64();
  if (!counts) return std::nullopt;
  return Length::counts(*counts);
}

}  // namespace fettle
