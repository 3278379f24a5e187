#include "numeric/straight_line.h"

#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/compensated_sum.h"

namespace fettle {

StraightLine fit_straight_line(std::span<const double> x, std::span<const double> y, double origin) {
  FETTLE_ASSERT(x.size() == y.size() && x.size() > 2, std::to_string(x.size()));
  const double n = static_cast<double>(x.size());
  CompensatedSum sum_x;
  CompensatedSum sum_y;
  for (std::size_t i = 0; i < x.size(); ++i) {
    FETTLE_ASSERT(std::isfinite(x[i]) && std::isfinite(y[i]), "a point that is not finite");
    sum_x.add(x[i] - x[0]);
    sum_y.add(y[i] - y[0]);
  }
  const double mean_x = sum_x.value() / n;  // less the first point
  const double mean_y = sum_y.value() / n;
  CompensatedSum xx;
  CompensatedSum xy;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double off = (x[i] - x[0]) - mean_x;
    xx.add(off * off);
    xy.add(off * ((y[i] - y[0]) - mean_y));
  }
  FETTLE_ASSERT(xx.value() > 0.0, "all points at one place");
  const double slope = xy.value() / xx.value();
  CompensatedSum squares;
  for (std::size_t i = 0; i < x.size(); ++i) {
    const double residual = ((y[i] - y[0]) - mean_y) - slope * ((x[i] - x[0]) - mean_x);
    squares.add(residual * residual);
  }
  const double degrees = n - 2.0;
  const double variance = squares.value() / degrees;
  const double centre = (x[0] - origin) + mean_x;  // of the points, from the origin
  const double slope_variance = variance / xx.value();
  const double intercept_variance = variance / n + centre * centre * slope_variance;
  const double together = intercept_variance > 0.0 ? -centre * slope_variance / std::sqrt(intercept_variance * slope_variance) : 0.0;
  return {origin, (y[0] + mean_y) - slope * centre, slope, std::sqrt(intercept_variance), std::sqrt(slope_variance), together, std::sqrt(variance),
          degrees};
}

StraightLine::Prediction StraightLine::at(double x) const {
  const double from_origin = x - origin;
  const double slope_part = from_origin * slope_uncertainty;
  const double variance = intercept_uncertainty * intercept_uncertainty + slope_part * slope_part +
                          2.0 * correlation * intercept_uncertainty * slope_part;
  return {intercept + slope * from_origin, std::sqrt(variance > 0.0 ? variance : 0.0)};
}

}  // namespace fettle
