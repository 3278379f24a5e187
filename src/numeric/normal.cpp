#include "numeric/normal.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "base/assertion.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

constexpr double kOneOverRoot2Pi = 0.3989422804014327;
constexpr double kFarthest = 37.0;
constexpr double kSeriesReach = 3.0;

/// Σ z^(2k+1)/(1·3·5···(2k+1))
double odd_series(double z) {
  double term = z;
  double sum = z;
  for (int k = 1; k < 200; ++k) {
    term *= z * z / (2 * k + 1);
    const double next = sum + term;
    if (next == sum) break;
    sum = next;
  }
  return sum;
}

/// (1 − Φ(z))/φ(z) for z ≥ 3 by its continued fraction 1/(z + 1/(z + 2/(z + 3/...))), from a fixed depth inward.
double mills_ratio(double z) {
  double tail = z;
  for (int k = 160; k >= 1; --k) tail = z + k / tail;
  return 1.0 / tail;
}

double polynomial(const std::array<double, 8>& coefficients, double x) {
  double sum = 0.0;
  for (std::size_t i = coefficients.size(); i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

// Wichura (1988), algorithm AS 241, PPND16: numerators and denominators for the middle, the near and the far tail.
constexpr std::array<double, 8> kMiddleTop = {3.3871328727963666080e0,  1.3314166789178437745e+2, 1.9715909503065514427e+3,
                                              1.3731693765509461125e+4, 4.5921953931549871457e+4, 6.7265770927008700853e+4,
                                              3.3430575583588128105e+4, 2.5090809287301226727e+3};
constexpr std::array<double, 8> kMiddleBottom = {1.0,                      4.2313330701600911252e+1, 6.8718700749205790830e+2,
                                                 5.3941960214247511077e+3, 2.1213794301586595867e+4, 3.9307895800092710610e+4,
                                                 2.8729085735721942674e+4, 5.2264952788528545610e+3};
constexpr std::array<double, 8> kNearTop = {1.42343711074968357734e0,  4.63033784615654529590e0,  5.76949722146069140550e0,
                                            3.64784832476320460504e0,  1.27045825245236838258e0,  2.41780725177450611770e-1,
                                            2.27238449892691845833e-2, 7.74545014278341407640e-4};
constexpr std::array<double, 8> kNearBottom = {1.0,                       2.05319162663775882187e0,  1.67638483018380384940e0,
                                               6.89767334985100004550e-1, 1.48103976427480074590e-1, 1.51986665636164571966e-2,
                                               5.47593808499534494600e-4, 1.05075007164441684324e-9};
constexpr std::array<double, 8> kFarTop = {6.65790464350110377720e0,  5.46378491116411436990e0,  1.78482653991729133580e0,
                                           2.96560571828504891230e-1, 2.65321895265761230930e-2, 1.24266094738807843860e-3,
                                           2.71155556874348757815e-5, 2.01033439929228813265e-7};
constexpr std::array<double, 8> kFarBottom = {1.0,                       5.99832206555887937690e-1, 1.36929880922735805310e-1,
                                              1.48753612908506148525e-2, 7.86869131145613259100e-4, 1.84631831751005468180e-5,
                                              1.42151175831644588870e-7, 2.04426310338993978564e-15};

}  // namespace

double normal_density(double z) { return kOneOverRoot2Pi * exponential(-0.5 * z * z); }

double normal_probability(double z) {
  z = std::max(z, -kFarthest);
  if (z > kFarthest) return 1.0;
  const double distance = std::fabs(z);
  if (distance < kSeriesReach) return 0.5 + normal_density(z) * odd_series(z);
  const double tail = normal_density(distance) * mills_ratio(distance);
  return z < 0.0 ? tail : 1.0 - tail;
}

double normal_quantile(double p) {
  FETTLE_ASSERT(p > 0.0 && p < 1.0, std::to_string(p));
  const double q = p - 0.5;
  if (std::fabs(q) <= 0.425) {
    const double r = 0.180625 - q * q;
    return q * polynomial(kMiddleTop, r) / polynomial(kMiddleBottom, r);
  }
  const double r = std::sqrt(-natural_log(q < 0.0 ? p : 1.0 - p));
  const double z = r <= 5.0 ? polynomial(kNearTop, r - 1.6) / polynomial(kNearBottom, r - 1.6)
                            : polynomial(kFarTop, r - 5.0) / polynomial(kFarBottom, r - 5.0);
  return q < 0.0 ? -z : z;
}

}  // namespace fettle
