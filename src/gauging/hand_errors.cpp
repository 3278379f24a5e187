#include "gauging/hand_errors.h"

#include <cmath>
#include <numbers>
#include <string>

#include "base/assertion.h"

namespace fettle {

double tilt_error_mm(double diameter_mm, double degrees) {
  FETTLE_ASSERT(std::fabs(degrees) < 60.0, std::to_string(degrees));
  // 1/cos − 1 = 2 sin²(φ/2)/cos φ keeps its digits at small angles.
  const double half = degrees * std::numbers::pi / 360.0;
  const double sine = std::sin(half);
  return diameter_mm * 2.0 * sine * sine / std::cos(2.0 * half);
}

double chord_error_mm(double diameter_mm, double offset_mm) {
  const double radius = diameter_mm / 2.0;
  FETTLE_ASSERT(std::fabs(offset_mm) < radius, std::to_string(offset_mm));
  const double root = std::sqrt(radius * radius - offset_mm * offset_mm);
  return -2.0 * offset_mm * offset_mm / (radius + root);
}

}  // namespace fettle
