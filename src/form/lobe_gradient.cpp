#include "form/lobe_gradient.h"

#include <cmath>

#include "base/assertion.h"
#include "form/two_lobe.h"

namespace fettle {

LobeGradient lobe_gradient(const LobeStation& lobe, const std::vector<double>& values) {
  const auto fitted = two_lobe_rows(lobe.angles_degrees);
  FETTLE_ASSERT(fitted.ok(), "an expansion holds a two-lobe fit that its directions do not determine");
  const TwoLobeRows& rows = fitted.value();
  double a = 0.0;
  double b = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    a += rows.a[i] * values[i];
    b += rows.b[i] * values[i];
  }
  constexpr double kNil = 1e-12;
  const double half = std::sqrt(a * a + b * b);
  const double along = half < kNil ? 1.0 : a / half;
  const double across = half < kNil ? 0.0 : b / half;
  LobeGradient out{2.0 * half, {}};
  for (std::size_t i = 0; i < values.size(); ++i) out.by_direction.push_back(2.0 * (along * rows.a[i] + across * rows.b[i]));
  return out;
}

}  // namespace fettle
