#include "numeric/range_constants.h"

#include <boost/math/policies/policy.hpp>
#include <boost/math/quadrature/gauss.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/compensated_sum.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

using OneType = boost::math::policies::policy<boost::math::policies::promote_double<false>>;

constexpr std::size_t kMostValues = 100;
constexpr double kFar = 9.0;         ///< beyond it lies less than 1e-18 of a normal value
constexpr double kStep = 1.0 / 8.0;  ///< of the trapezoidal rule, which is exact here to far below a double's last digit
constexpr double kPanel = 2.0;       ///< of Gauss' rule over the range
constexpr double kLongest = 14.0;    ///< ranges beyond it are below 1e-16 for 100 values

void check(std::size_t count) { FETTLE_ASSERT(count > 1 && count <= kMostValues, std::to_string(count)); }

double power(double base, std::size_t exponent) {
  double out = 1.0;
  for (std::size_t i = 0; i < exponent; ++i) out *= base;
  return out;
}

/// P(range > w) = 1 − n ∫ φ(x)·(Φ(x + w) − Φ(x))ⁿ⁻¹ dx, x the smallest value.
double range_beyond(double w, std::size_t count) {
  CompensatedSum sum;
  const int steps = static_cast<int>(2.0 * kFar / kStep);
  for (int i = 0; i <= steps; ++i) {
    const double x = -kFar + kStep * i;
    sum.add(normal_density(x) * power(normal_between(x, x + w), count - 1));
  }
  return 1.0 - static_cast<double>(count) * kStep * sum.value();
}

}  // namespace

double range_mean(std::size_t count) {
  check(count);
  CompensatedSum sum;  // ∫ 1 − Φⁿ − (1 − Φ)ⁿ dx
  const int steps = static_cast<int>(2.0 * kFar / kStep);
  for (int i = 0; i <= steps; ++i) {
    const double x = -kFar + kStep * i;
    sum.add((1.0 - power(normal_lower(x), count)) - power(normal_upper(x), count));
  }
  return kStep * sum.value();
}

double range_deviation(std::size_t count) {
  check(count);
  CompensatedSum square;  // ∫ 2w·P(range > w) dw
  for (double from = 0.0; from < kLongest; from += kPanel) {
    square.add(boost::math::quadrature::gauss<double, 20>::integrate([&](double w) { return 2.0 * w * range_beyond(w, count); }, from, from + kPanel));
  }
  const double mean = range_mean(count);
  return std::sqrt(square.value() - mean * mean);
}

double deviation_mean(double count) {
  FETTLE_ASSERT(count > 1.0 && std::isfinite(count), std::to_string(count));
  const double below = (count - 1.0) / 2.0;
  return 1.0 / (std::sqrt(below) * boost::math::tgamma_delta_ratio(below, 0.5, OneType()));
}

double pooled_range_divisor(std::size_t count, std::size_t groups) {
  FETTLE_ASSERT(groups > 0, "no groups");
  const double mean = range_mean(count);
  const double deviation = range_deviation(count);
  return std::sqrt(mean * mean + deviation * deviation / static_cast<double>(groups));
}

double range_degrees_of_freedom(std::size_t count, std::size_t groups) {
  const double wanted = range_mean(count) / pooled_range_divisor(count, groups);
  double low = 0.5;
  double high = 1e7;
  for (int i = 0; i < 80; ++i) {
    const double middle = std::sqrt(low * high);
    (deviation_mean(middle + 1.0) < wanted ? low : high) = middle;
  }
  return std::sqrt(low * high);
}

}  // namespace fettle
