#include "form/lobe_check.h"

#include <array>
#include <cmath>

#include "base/assertion.h"
#include "numeric/least_squares.h"

namespace fettle {
namespace {

/// 99 % points of χ² for 1 to 21 degrees of freedom (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4).
constexpr std::array<double, 21> kChiSquare99{6.635,  9.210,  11.345, 13.277, 15.086, 16.812, 18.475,
                                              20.090, 21.666, 23.209, 24.725, 26.217, 27.688, 29.141,
                                              30.578, 32.000, 33.409, 34.805, 36.191, 37.566, 38.932};

/// Below this an oval is a circle: a hundredth of the 0.1 nm that sizes are counted in.
constexpr double kRound_mm = 1e-9;

double sum_of_squares(const std::vector<double>& values) {
  double sum = 0.0;
  for (double each : values) sum += each * each;
  return sum;
}

bool too_much_left(const TwoLobeFit& fit, double uncertainty_mm) {
  if (fit.degrees_of_freedom < 1) return false;
  const double limit = kChiSquare99[static_cast<std::size_t>(fit.degrees_of_freedom) - 1];
  return sum_of_squares(fit.residuals) > limit * uncertainty_mm * uncertainty_mm;
}

template <class T>
std::vector<T> without(const std::vector<T>& items, std::size_t index) {
  std::vector<T> out;
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (i != index) out.push_back(items[i]);
  }
  return out;
}

/// The one direction without which the others lie on an oval; nothing if there is none or more than one.
std::optional<std::size_t> standing_out(const std::vector<double>& angles, const std::vector<double>& sizes, double uncertainty_mm) {
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < angles.size(); ++i) {
    const auto fit = fit_two_lobe(without(angles, i), without(sizes, i));
    if (!fit.ok() || fit.value().degrees_of_freedom < 1 || too_much_left(fit.value(), uncertainty_mm)) continue;
    if (found) return std::nullopt;
    found = i;
  }
  return found;
}

}  // namespace

Result<LobeCheck> check_lobe(const std::vector<Ratio>& angles_degrees, const std::vector<double>& sizes_mm,
                             double reading_uncertainty_mm) {
  FETTLE_ASSERT(reading_uncertainty_mm > 0.0, "uncertainty of a reading");
  FETTLE_ASSERT(angles_degrees.size() == sizes_mm.size(), "one size for each angle");
  FETTLE_ASSERT(sizes_mm.size() <= kChiSquare99.size() + 3, "directions " + std::to_string(sizes_mm.size()));
  std::vector<double> angles;
  std::vector<double> deviations;  // from the first size, so that small figures keep their digits
  for (const Ratio& angle : angles_degrees) angles.push_back(angle.to_double());
  for (double size : sizes_mm) deviations.push_back(size - sizes_mm.front());
  const auto fit = fit_two_lobe(angles, deviations);
  if (!fit.ok()) return fit.problems();

  LobeCheck out{LobeWord::not_possible, fit.value().ovality, {}, {}, {}};
  if (fit.value().ovality > kRound_mm) out.direction_degrees = fit.value().direction_degrees;
  const int freedom = fit.value().degrees_of_freedom;
  if (freedom < 1) return out;
  out.residual_sd_mm = std::sqrt(sum_of_squares(fit.value().residuals) / freedom);
  out.word = LobeWord::fits;
  if (!too_much_left(fit.value(), reading_uncertainty_mm)) return out;
  out.direction = standing_out(angles, deviations, reading_uncertainty_mm);
  out.word = out.direction ? LobeWord::one_stands_out : LobeWord::does_not_fit;
  return out;
}

}  // namespace fettle
