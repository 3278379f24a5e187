#include "numeric/normal.h"

#include <array>
#include <cmath>
#include <string>
#include <type_traits>

#include "base/assertion.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

template <class T>
constexpr T narrow_or_keep(long double value) {
  if constexpr (std::is_same_v<T, long double>) {
    return value;
  } else {
    return static_cast<double>(value);
  }
}
template <class T>
constexpr T kInverseRootTwoPi = narrow_or_keep<T>(0.398942280401432677939946059934381868L);
template <class T>
constexpr T kInverseRootTwo = narrow_or_keep<T>(0.707106781186547524400844362104849039L);
template <class T>
constexpr T kInverseRootPi = narrow_or_keep<T>(0.564189583547756286948079451560772586L);

// cody1969: coefficients of the three rational approximations, highest power first.
constexpr std::array kErfTop{1.85777706184603153e-1, 3.16112374387056560e00, 1.13864154151050156e02,
                             3.77485237685302021e02, 3.20937758913846947e03};
constexpr std::array kErfBottom{1.0, 2.36012909523441209e01, 2.44024637934444173e02, 1.28261652607737228e03,
                                2.84423683343917062e03};
constexpr std::array kMiddleTop{2.15311535474403846e-8, 5.64188496988670089e-1, 8.88314979438837594e00,
                                6.61191906371416295e01, 2.98635138197400131e02, 8.81952221241769090e02,
                                1.71204761263407058e03, 2.05107837782607147e03, 1.23033935479799725e03};
constexpr std::array kMiddleBottom{1.0,
                                   1.57449261107098347e01,
                                   1.17693950891312499e02,
                                   5.37181101862009858e02,
                                   1.62138957456669019e03,
                                   3.29079923573345963e03,
                                   4.36261909014324716e03,
                                   3.43936767414372164e03,
                                   1.23033935480374942e03};
constexpr std::array kFarTop{1.63153871373020978e-2, 3.05326634961232344e-1, 3.60344899949804439e-1,
                             1.25781726111229246e-1, 1.60837851487422766e-2, 6.58749161529837803e-4};
constexpr std::array kFarBottom{1.0,
                                2.56852019228982242e00,
                                1.87295284992346725e00,
                                5.27905102951428412e-1,
                                6.05183413124413191e-2,
                                2.33520497626869185e-3};

// wichura1988, PPND16: coefficients a to f, highest power first.
constexpr std::array kQuantileA{2.5090809287301226727e+3, 3.3430575583588128105e+4, 6.7265770927008700853e+4,
                                4.5921953931549871457e+4, 1.3731693765509461125e+4, 1.9715909503065514427e+3,
                                1.3314166789178437745e+2, 3.3871328727963666080e+0};
constexpr std::array kQuantileB{
    5.2264952788528545610e+3, 2.8729085735721942674e+4, 3.9307895800092710610e+4, 2.1213794301586595867e+4,
    5.3941960214247511077e+3, 6.8718700749205790830e+2, 4.2313330701600911252e+1, 1.0};
constexpr std::array kQuantileC{7.74545014278341407640e-4, 2.27238449892691845833e-2, 2.41780725177450611770e-1,
                                1.27045825245236838258e0,  3.64784832476320460504e0,  5.76949722146069140550e0,
                                4.63033784615654529590e0,  1.42343711074968357734e0};
constexpr std::array kQuantileD{
    1.05075007164441684324e-9, 5.47593808499534494600e-4, 1.51986665636164571966e-2, 1.48103976427480074590e-1,
    6.89767334985100004550e-1, 1.67638483018380384940e0,  2.05319162663775882187e0,  1.0};
constexpr std::array kQuantileE{2.01033439929228813265e-7, 2.71155556874348757815e-5, 1.24266094738807843860e-3,
                                2.65321895265761230930e-2, 2.96560571828504891230e-1, 1.78482653991729133580e0,
                                5.46378491116411436990e0,  6.65790464350110377720e0};
constexpr std::array kQuantileF{
    2.04426310338993978564e-15, 1.42151175831644588870e-7, 1.84631831751005468180e-5, 7.86869131145613259100e-4,
    1.48753612908506148525e-2,  1.36929880922735805310e-1, 5.99832206555887937690e-1, 1.0};

template <class T, std::size_t N>
T polynomial(const std::array<double, N>& highest_first, T x) {
  T sum = highest_first[0];
  for (std::size_t k = 1; k < N; ++k) sum = sum * x + highest_first[k];
  return sum;
}

// Beyond this the density is 0 in double and its square may overflow.
constexpr double kFarthest = 39.0;

// e^(-z^2/2) for 0 <= z <= kFarthest. The square is split: its high part is exact, so the large exponent brings no
// error in.
template <class T>
T bell(T z) {
  const T coarse = static_cast<T>(static_cast<int>(z * 65536)) / 65536;  // 22 bits
  const T rest = (z - coarse) * (z + coarse);
  return exponential(-coarse * coarse / 2) * exponential(-rest / 2);
}

// Probability between 0 and z for |z| <= kCentral, with full relative accuracy.
constexpr double kCentral = 0.66291260736239;  // 0.46875 sqrt 2
template <class T>
T central(T z) {
  const T square = z * z / 2;
  return z * kInverseRootTwo<T> * polynomial(kErfTop, square) / polynomial(kErfBottom, square) / 2;
}

// Probability above z, for z > kCentral.
template <class T>
T tail(T z) {
  if (z > kFarthest) return 0;
  const T x = z * kInverseRootTwo<T>;
  if (x <= 4.0) return bell(z) * (polynomial(kMiddleTop, x) / polynomial(kMiddleBottom, x)) / 2;
  const T y = 1 / (x * x);
  const T far = y * polynomial(kFarTop, y) / polynomial(kFarBottom, y);
  return bell(z) * ((kInverseRootPi<T> - far) / x) / 2;
}

// For 0 < p < 0.5: how far below 0 the quantile lies, before the Newton step; q = p - 1/2.
template <class T>
T raw_quantile(T p, T q) {
  if (q >= -0.425) {
    const T r = 0.180625 - q * q;
    return -q * polynomial(kQuantileA, r) / polynomial(kQuantileB, r);
  }
  const T r = std::sqrt(-natural_log(p));
  if (r <= 5.0) return polynomial(kQuantileC, r - 1.6) / polynomial(kQuantileD, r - 1.6);
  return polynomial(kQuantileE, r - 5.0) / polynomial(kQuantileF, r - 5.0);
}

// The positive z with tail(z) = p, for 0 < p < 0.5; q = p - 1/2.
template <class T>
T positive_quantile(T p, T q) {
  const T z = raw_quantile(p, q);
  const T density = bell(z) * kInverseRootTwoPi<T>;
  // Below the normal numbers the tail has too few digits to improve on.
  if (density < 1e-300) return z;
  // How much probability is missing between 0 and z.
  const T missing = z <= kCentral ? -q - central(z) : tail(z) - p;
  return z + missing / density;
}

}  // namespace

template <class T>
T normal_density(T z) {
  FETTLE_ASSERT(z == z, "density of NaN");
  const T distance = z < 0 ? -z : z;
  return distance > kFarthest ? 0 : bell(distance) * kInverseRootTwoPi<T>;
}

template <class T>
T normal_upper(T z) {
  FETTLE_ASSERT(z == z, "probability above NaN");
  if (z > kCentral) return tail(z);
  if (z < -kCentral) return 1 - tail(-z);
  return 0.5 - central(z);
}

template <class T>
T normal_lower(T z) {
  return normal_upper(-z);
}

template <class T>
T normal_between(T low, T high) {
  FETTLE_ASSERT(low <= high, "bounds in the wrong order, or NaN");
  if (low > kCentral) return tail(low) - tail(high);
  if (high < -kCentral) return tail(-high) - tail(-low);
  if (low >= -kCentral && high <= kCentral) return central(high) - central(low);
  // One bound is central and the other in a tail, or each is in a tail of its own.
  return 1 - (normal_lower(low) + normal_upper(high));
}

template <class T>
T normal_quantile(T probability) {
  FETTLE_ASSERT(probability > 0 && probability < 1, "quantile of a probability outside of (0, 1)");
  const T q = probability - 0.5;  // exact, or so small a probability that it does not matter
  if (q == 0) return 0;
  if (q < 0) return -positive_quantile(probability, q);
  return positive_quantile(1 - probability, -q);
}

double normal_quantile_quick(double probability) {
  FETTLE_ASSERT(probability > 0 && probability < 1, "quantile of a probability outside of (0, 1)");
  const double q = probability - 0.5;
  if (q == 0) return 0;
  return q < 0 ? -raw_quantile(probability, q) : raw_quantile(1 - probability, -q);
}

namespace {

// From here on the tail is taken from its asymptotic series: the next term, 10395/z^12, is below 3e-15.
constexpr double kSeries = 35.0;

/// ln of z·√2π·e^{z²/2} times the probability above z, for z >= kSeries.
double log_mills(double z) {
  const double y = 1.0 / (z * z);
  return natural_log(1.0 - y * (1.0 - y * (3.0 - y * (15.0 - y * (105.0 - y * 945.0)))));
}

}  // namespace

double log_normal_between(double low, double high) {
  FETTLE_ASSERT(low < high && std::abs(low) < 1e150 && std::abs(high) < 1e150, "bounds of a logarithm of a probability");
  if (high < -low) return log_normal_between(-high, -low);
  if (low < kSeries) return natural_log(normal_between(low, high));
  // The upper tail is taken off as a share of the lower one: e^(-(high² - low²)/2) of it and a little less.
  const double share = log_mills(high) - log_mills(low) - natural_log(high / low) - (high - low) * (high + low) / 2.0;
  const double log_root_two_pi = -natural_log(kInverseRootTwoPi<double>);
  return -low * low / 2.0 - log_root_two_pi - natural_log(low) + log_mills(low) + natural_log(1.0 - exponential(share));
}

template double normal_density(double);
template long double normal_density(long double);
template double normal_lower(double);
template long double normal_lower(long double);
template double normal_upper(double);
template long double normal_upper(long double);
template double normal_between(double, double);
template long double normal_between(long double, long double);
template double normal_quantile(double);
template long double normal_quantile(long double);

}  // namespace fettle
