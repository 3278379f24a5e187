#include "numeric/angle.h"

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <type_traits>

#include "base/assertion.h"

namespace fettle {
namespace {

template <class T>
constexpr T radians_per_degree() {
  if constexpr (std::is_same_v<T, long double>) {
    return 3.14159265358979323846264338327950288L / 180;
  } else {
    return 0x1.1df46a2529d39p-6;
  }
}

// A Taylor series whose terms follow from each other: term *= -x^2 / (n (n+1)). Twelve terms reach 2^-80 at 45 degrees.
template <class T>
T alternating_series(T first, T square, int n) {
  T term = first;
  std::array<T, 12> terms{};
  for (T& entry : terms) {
    entry = term;
    term *= -square / static_cast<T>(n * (n + 1));
    n += 2;
  }
  T sum = 0;
  for (std::size_t k = terms.size(); k-- > 0;) sum += terms[k];  // smallest first
  return sum;
}

template <class T>
struct Reduced {
  T radians;     // within 45 degrees
  int quadrant;  // 0 to 3
};

template <class T>
Reduced<T> reduce(T degrees) {
  FETTLE_ASSERT(degrees >= -1e6 && degrees <= 1e6, "angle outside of a million degrees");
  const T turned = std::fmod(degrees, static_cast<T>(360));  // exact
  const int quarters = static_cast<int>(turned / 90 + (turned < 0 ? -0.5 : 0.5));
  const T rest = turned - static_cast<T>(quarters * 90);  // exact
  return {rest * radians_per_degree<T>(), (quarters + 4) % 4};
}

template <class T>
T sine_or_cosine(const Reduced<T>& angle, bool sine) {
  const T square = angle.radians * angle.radians;
  const bool odd = angle.quadrant % 2 == 1;
  const T value = sine != odd ? alternating_series(angle.radians, square, 2) : alternating_series(T{1}, square, 1);
  const bool negative = sine ? angle.quadrant >= 2 : angle.quadrant == 1 || angle.quadrant == 2;
  return negative && value != 0 ? -value : value;
}

// Degrees of the vector (x, y) with 0 <= y <= x, x > 0.
double within_half_quadrant(double y, double x) {
  const double ratio = y / x;
  const double turn = 11.25 * static_cast<double>(static_cast<int>(ratio * (3.5 + 0.5 * (1.0 - ratio)) + 0.5));
  const double sine = sine_of_degrees(turn);
  const double cosine = cosine_of_degrees(turn);
  const double t = (ratio * cosine - sine) / (cosine + ratio * sine);
  const double square = t * t;
  double sum = 0.0;
  for (int n = 29; n >= 1; n -= 2) sum = 1.0 / static_cast<double>(n) - square * sum;
  return turn + t * sum / radians_per_degree<double>();
}

}  // namespace

template <class T>
T sine_of_degrees(T degrees) {
  return sine_or_cosine(reduce(degrees), true);
}

template <class T>
T cosine_of_degrees(T degrees) {
  return sine_or_cosine(reduce(degrees), false);
}

template double sine_of_degrees(double);
template long double sine_of_degrees(long double);
template double cosine_of_degrees(double);
template long double cosine_of_degrees(long double);

double direction_in_degrees(double y, double x) {
  const double across = std::fabs(x);
  const double up = std::fabs(y);
  constexpr double kMost = std::numeric_limits<double>::max();
  FETTLE_ASSERT(across <= kMost && up <= kMost && (across > 0.0 || up > 0.0), "a vector without a direction");
  const double first = up <= across ? within_half_quadrant(up, across) : 90.0 - within_half_quadrant(across, up);
  const double upper = x < 0.0 ? 180.0 - first : first;
  return y < 0.0 ? -upper : upper;
}

}  // namespace fettle
