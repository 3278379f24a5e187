#include "gauging/closing_zero.h"

#include <cmath>
#include <string>

#include "base/assertion.h"

namespace fettle {
ClosingZero::ClosingZero(double difference_mm, std::size_t readings)
    : difference_mm_(difference_mm), readings_(readings) {
  FETTLE_ASSERT(readings >= 1, "closing zero without readings");
}

double ClosingZero::step_uncertainty_mm() const { return std::fabs(difference_mm_); }

double ClosingZero::drift_mm(std::size_t k) const {
  FETTLE_ASSERT(k >= 1 && k <= readings_, std::to_string(k));
  return difference_mm_ * static_cast<double>(k) / static_cast<double>(readings_);
}

std::vector<ClosingZero::Step> ClosingZero::steps(std::size_t k) const {
  FETTLE_ASSERT(k >= 1 && k <= readings_, std::to_string(k));
  const auto real = [](std::size_t whole) { return static_cast<double>(whole); };
  std::vector<Step> out;
  std::size_t low = 0;
  std::size_t high = readings_;
  // Between two tied places the middle one has the variance of a tied walk; the others follow it along straight lines.
  while (k > low && k < high) {
    const std::size_t middle = low + (high - low) / 2;
    const double sd = std::sqrt(real(middle - low) * real(high - middle) / (real(high - low) * real(readings_)));
    const double follows = k <= middle ? real(k - low) / real(middle - low) : real(high - k) / real(high - middle);
    out.push_back({middle, sd * follows});
    if (k == middle) break;
    (k < middle ? high : low) = middle;
  }
  return out;
}

double ClosingZero::unordered_uncertainty_mm(double difference_mm) {
  return std::fabs(difference_mm) / std::sqrt(2.0);
}

}  // namespace fettle
