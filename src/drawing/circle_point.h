#pragma once

#include <cmath>
#include <numbers>

#include "drawing/drawing.h"

namespace fettle {

/// The point at `degrees` clockwise from straight up, `radius` from the centre.
[[nodiscard]] inline Point circle_point(Point centre, double radius, double degrees) {
  const double angle = degrees * std::numbers::pi / 180.0;
  return {centre.x + radius * std::sin(angle), centre.y - radius * std::cos(angle)};
}

}  // namespace fettle
