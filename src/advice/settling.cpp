#include "advice/settling.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "numeric/normal.h"

namespace fettle {
namespace {

constexpr double kSurest = 1e-9;  ///< chances nearer to 0 or 1 count as this
constexpr std::size_t kPoints = 64;

double probit(double chance) { return normal_quantile(std::clamp(chance, kSurest, 1.0 - kSurest)); }

/// Even shares of the standard normal, each by its middle.
const std::array<double, kPoints>& middles() {
  static const std::array<double, kPoints> points = [] {
    std::array<double, kPoints> out{};
    for (std::size_t i = 0; i < kPoints; ++i) out[i] = normal_quantile((static_cast<double>(i) + 0.5) / static_cast<double>(kPoints));
    return out;
  }();
  return points;
}

}  // namespace

double chance_settled(double chance, double explained, double level) {
  const double edge = normal_quantile(level);
  const double middle = probit(chance);
  const double left = std::sqrt(std::max(1.0 - explained, 0.0));  // sd that stays, of 1
  const double moved = std::sqrt(std::clamp(explained, 0.0, 1.0));
  if (moved <= 0.0) return std::abs(middle) >= edge ? 1.0 : 0.0;
  return normal_lower((middle - edge * left) / moved) + normal_lower((-middle - edge * left) / moved);
}

double cost_of_deciding(double chance, const WrongCosts& costs) { return std::min(costs.pass * (1.0 - chance), costs.fail * chance); }

double cost_after(double chance, double explained, const WrongCosts& costs) {
  const double middle = probit(chance);
  const double left = std::sqrt(std::max(1.0 - explained, kSurest));
  const double moved = std::sqrt(std::clamp(explained, 0.0, 1.0));
  double sum = 0.0;
  for (const double z : middles()) sum += cost_of_deciding(normal_lower((middle + moved * z) / left), costs);
  return sum / static_cast<double>(kPoints);
}

}  // namespace fettle
