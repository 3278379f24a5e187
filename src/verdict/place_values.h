#pragma once

#include "catalogue/expression.h"
#include "units/length.h"

namespace fettle {

/// Estimates are in mm, forms in counts of 0.1 nm. The factor that turns coefficient·mm into the unit of the figure: 1 for a length
/// (mm), counts per mm for a ratio.
[[nodiscard]] inline double scale_to_counts(ResultDimension dimension) {
  switch (dimension) {
    case ResultDimension::length: return 1.0;
    case ResultDimension::ratio: return static_cast<double>(Length::kCountsPerMillimetre);
  }
  return 1.0;
}

/// An exact figure of a definition (counts, or a plain ratio) in the unit of the estimates (mm, or a plain ratio).
[[nodiscard]] inline double constant_in_unit(const Ratio& value, ResultDimension dimension) {
  switch (dimension) {
    case ResultDimension::length: return value.to_double() / static_cast<double>(Length::kCountsPerMillimetre);
    case ResultDimension::ratio: return value.to_double();
  }
  return value.to_double();
}

}  // namespace fettle
