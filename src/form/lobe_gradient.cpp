#include "form/lobe_gradient.h"

#include <cmath>

#include "base/assertion.h"
#include "numeric/least_squares.h"

namespace fettle {

LobeWeights lobe_weights(const LobeStation& lobe) {
  std::vector<double> angles;
  for (const Ratio& angle : lobe.angles_degrees) angles.push_back(angle.to_double());
  LobeWeights weights;
  for (std::size_t i = 0; i < angles.size(); ++i) {
    // The fit is linear in the sizes: its answer to a unit size in one direction is that direction's weight.
    std::vector<double> unit(angles.size(), 0.0);
    unit[i] = 1.0;
    const auto fit = fit_two_lobe(angles, unit);
    FETTLE_ASSERT(fit.ok(), "an expansion holds a two-lobe fit that its directions do not determine");
    weights.cosine.push_back(fit.value().cosine);
    weights.sine.push_back(fit.value().sine);
  }
  return weights;
}

LobeGradient lobe_gradient(const LobeStation& lobe, const std::vector<double>& values) {
  const LobeWeights weights = lobe_weights(lobe);
  double a = 0.0;
  double b = 0.0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    a += weights.cosine[i] * values[i];
    b += weights.sine[i] * values[i];
  }
  const double half = std::sqrt(a * a + b * b);
  const bool round = half < 1e-12;
  const double along = round ? 1.0 : a / half;
  const double across = round ? 0.0 : b / half;
  LobeGradient out{2.0 * half, {}};
  for (std::size_t i = 0; i < values.size(); ++i) {
    out.by_direction.push_back(2.0 * (along * weights.cosine[i] + across * weights.sine[i]));
  }
  return out;
}

}  // namespace fettle
