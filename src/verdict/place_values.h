#pragma once

#include "catalogue/expression.h"
#include "units/length.h"

namespace fettle {

/// Estimates of lengths are in mm, forms in counts of 0.1 nm. The factor that turns coefficient·estimate into the unit of the figure:
/// counts per mm for a ratio of lengths, else 1.
[[nodiscard]] inline double scale_to_counts(ResultDimension dimension) {
  return dimension == ResultDimension::ratio ? static_cast<double>(Length::kCountsPerMillimetre) : 1.0;
}

/// An exact figure of a definition (counts, base units, or a pure number) in the unit of the estimates (mm, base units, or a pure number).
[[nodiscard]] inline double constant_in_unit(const Ratio& value, ResultDimension dimension) {
  constexpr auto kCounts = static_cast<double>(Length::kCountsPerMillimetre);
  switch (dimension) {
    case ResultDimension::length: return value.to_double() / kCounts;
    case ResultDimension::force_per_length: return value.to_double() * kCounts;
    case ResultDimension::ratio:
    case ResultDimension::number:
    case ResultDimension::force:
    case ResultDimension::volume:
    case ResultDimension::angle:
    case ResultDimension::mass:
    case ResultDimension::pressure: return value.to_double();
  }
  return value.to_double();
}

}  // namespace fettle
