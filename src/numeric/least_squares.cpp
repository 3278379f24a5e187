#include "numeric/least_squares.h"

#include <cmath>
#include <cstdint>
#include <string>
#include <utility>

#include "base/assertion.h"
#include "numeric/angle.h"

namespace fettle {
namespace {

// Smallest eigenvalue of the centred moments, per size, below which the directions count as not determining the oval.
constexpr double kLeastMoment = 1e-6;

struct Regressor {
  double mean;
  std::vector<double> centred;
};

Regressor centre(std::vector<double> values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  const double mean = sum / static_cast<double>(values.size());
  for (double& value : values) value -= mean;
  return {mean, std::move(values)};
}

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

std::optional<double> direction_of(double cosine, double sine) {
  if (cosine == 0.0 && sine == 0.0) return std::nullopt;
  const double half = direction_in_degrees(sine, cosine) / 2.0;
  const double turned = half < 0.0 ? half + 180.0 : half;
  return turned < 180.0 ? turned : 0.0;
}

// Centred second moments of cos 2t and sin 2t over the directions.
struct SumsOfSquares {
  double cc, ss, cs;
  [[nodiscard]] double determinant() const { return cc * ss - cs * cs; }
  [[nodiscard]] double least_eigenvalue() const {
    // Determinant over the larger one, which does not cancel as the difference of two terms does.
    const double larger = (cc + ss + std::sqrt((cc - ss) * (cc - ss) + 4.0 * cs * cs)) / 2.0;
    return larger > 0.0 ? determinant() / larger : 0.0;
  }
};

}  // namespace

Result<TwoLobeFit> fit_two_lobe(const std::vector<double>& angles_degrees, const std::vector<double>& sizes) {
  const std::size_t n = sizes.size();
  FETTLE_ASSERT(angles_degrees.size() == n, std::to_string(angles_degrees.size()) + " angles, " + std::to_string(n));
  for (const double size : sizes) FETTLE_ASSERT(std::isfinite(size), "a size is not finite");
  const Argument given = count("given", static_cast<std::int64_t>(n));
  if (n < 3) return Problem{"numeric.two_lobe_too_few", {}, {given}};

  std::vector<double> cosines;
  std::vector<double> sines;
  for (const double angle : angles_degrees) {
    cosines.push_back(cosine_of_degrees(2.0 * angle));
    sines.push_back(sine_of_degrees(2.0 * angle));
  }
  const Regressor c = centre(std::move(cosines));
  const Regressor s = centre(std::move(sines));
  const Regressor d = centre(sizes);
  const SumsOfSquares moments{dot(c.centred, c.centred), dot(s.centred, s.centred), dot(c.centred, s.centred)};
  const double least = moments.least_eigenvalue();
  if (least < kLeastMoment * static_cast<double>(n)) return Problem{"numeric.two_lobe_undetermined", {}, {given}};

  const double cd = dot(c.centred, d.centred);
  const double sd = dot(s.centred, d.centred);
  const double cosine = (moments.ss * cd - moments.cs * sd) / moments.determinant();
  const double sine = (moments.cc * sd - moments.cs * cd) / moments.determinant();
  std::vector<double> residuals;
  for (std::size_t i = 0; i < n; ++i) {
    residuals.push_back(d.centred[i] - (cosine * c.centred[i] + sine * s.centred[i]));
  }
  return TwoLobeFit{.mean = d.mean - cosine * c.mean - sine * s.mean,
                    .cosine = cosine,
                    .sine = sine,
                    .ovality = 2.0 * std::sqrt(cosine * cosine + sine * sine),
                    .direction_degrees = direction_of(cosine, sine),
                    .residuals = std::move(residuals),
                    .degrees_of_freedom = static_cast<int>(n) - 3,
                    .ovality_gain = 2.0 / std::sqrt(least)};
}

}  // namespace fettle
