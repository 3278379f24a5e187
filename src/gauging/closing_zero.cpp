#include "gauging/closing_zero.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "base/assertion.h"

namespace fettle {
namespace {
constexpr std::size_t kMostSteps = 64;
}

ClosingZero::ClosingZero(double difference_mm, std::size_t readings)
    : difference_mm_(difference_mm), readings_(readings), steps_(std::min(readings, kMostSteps)) {
  FETTLE_ASSERT(readings >= 1, "closing zero without readings");
}

double ClosingZero::step_uncertainty_mm() const {
  return std::fabs(difference_mm_) / std::sqrt(static_cast<double>(steps_));
}

double ClosingZero::drift_mm(std::size_t k) const {
  FETTLE_ASSERT(k >= 1 && k <= readings_, std::to_string(k));
  return difference_mm_ * static_cast<double>(k) / static_cast<double>(readings_);
}

std::vector<double> ClosingZero::coefficients(std::size_t k) const {
  FETTLE_ASSERT(k >= 1 && k <= readings_, std::to_string(k));
  // In units of steps; whole when every reading has its own step.
  const double position = static_cast<double>(k) * static_cast<double>(steps_) / static_cast<double>(readings_);
  const double share = position / static_cast<double>(steps_);
  std::vector<double> out(steps_);
  for (std::size_t j = 0; j < steps_; ++j) {
    const double passed = std::clamp(position - static_cast<double>(j), 0.0, 1.0);
    out[j] = passed - share;
  }
  return out;
}

double ClosingZero::unordered_uncertainty_mm(double difference_mm) {
  return std::fabs(difference_mm) / std::sqrt(2.0);
}

}  // namespace fettle
