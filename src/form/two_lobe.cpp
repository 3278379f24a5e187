#include "form/two_lobe.h"

#include <cmath>

#include "numeric/least_squares.h"

namespace fettle {
namespace {

double dot(const std::vector<double>& row, const double* values) {
  double sum = 0.0;
  for (std::size_t i = 0; i < row.size(); ++i) sum += row[i] * values[i];
  return sum;
}

}  // namespace

Result<TwoLobeRows> two_lobe_rows(const std::vector<Ratio>& angles_degrees) {
  std::vector<double> angles;
  for (const Ratio& angle : angles_degrees) angles.push_back(angle.to_double());
  TwoLobeRows out;
  // The fit is linear in the sizes: its answer to a unit size in one direction is that direction's entry.
  std::vector<double> unit(angles.size(), 0.0);
  for (std::size_t i = 0; i < angles.size(); ++i) {
    unit[i] = 1.0;
    const auto fit = fit_two_lobe(angles, unit);
    if (!fit.ok()) return fit.problems();
    out.mean.push_back(fit.value().mean);
    out.a.push_back(fit.value().cosine);
    out.b.push_back(fit.value().sine);
    unit[i] = 0.0;
  }
  return out;
}

double ovality_mm(const TwoLobeRows& rows, const double* sizes_mm) {
  const double a = dot(rows.a, sizes_mm);
  const double b = dot(rows.b, sizes_mm);
  return 2.0 * std::sqrt(a * a + b * b);
}

}  // namespace fettle
