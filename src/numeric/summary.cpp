#include "numeric/summary.h"

#include <cmath>

#include "base/assertion.h"
#include "numeric/compensated_sum.h"

namespace fettle {

Summary summarize(std::span<const double> values) {
  FETTLE_ASSERT(!values.empty(), "a summary of nothing");
  const double n = static_cast<double>(values.size());
  const double first = values.front();
  CompensatedSum differences;
  for (const double value : values) {
    FETTLE_ASSERT(std::isfinite(value), "a value that is not finite");
    differences.add(value - first);
  }
  const double shift = differences.value() / n;
  CompensatedSum rest;
  CompensatedSum squares;
  CompensatedSum neighbours;
  double before = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const double off = (values[i] - first) - shift;
    rest.add(off);
    squares.add(off * off);
    if (i > 0) neighbours.add(before * off);
    before = off;
  }
  const double left = squares.value() - rest.value() * rest.value() / n;
  Summary out{values.size(), first + shift, 0.0, std::nullopt};
  if (values.size() > 1) out.standard_deviation = std::sqrt(left / (n - 1.0));
  if (left > 0.0) out.lag1 = neighbours.value() / left;
  return out;
}

double PooledSpread::standard_deviation() const {
  FETTLE_ASSERT(degrees_of_freedom > 0.0, "a pooled spread without degrees of freedom");
  return std::sqrt(sum_of_squares / degrees_of_freedom);
}

}  // namespace fettle
