#pragma once

#include <cstddef>
#include <span>

namespace fettle {

/// y = intercept + slope·(x − origin), by least squares, all y weighing the same and x as exact.
struct StraightLine {
  double origin;                        ///< unit of x
  double intercept;                     ///< at the origin, unit of y
  double slope;                         ///< unit of y per unit of x
  double intercept_uncertainty;         ///< standard uncertainties from the scatter of y
  double slope_uncertainty;
  double correlation;                   ///< of intercept and slope, −1 to 1
  double residual_deviation;            ///< √(Σ residual² / degrees of freedom), unit of y
  double degrees_of_freedom;            ///< points − 2

  struct Prediction {
    double value;
    double standard_uncertainty;        ///< of the line there, without the scatter of another y
  };
  [[nodiscard]] Prediction at(double x) const;
};

/// Fits a line to three or more points. Needs finite figures, as many x as y, two x that differ, else InternalError. `origin`: where the
/// intercept stands. Relative error at most 1e-13 times (spread of x about its mean against its distance from the origin)².
/// Source: jcgm100 H.3.2 equations H.13a to H.13e and H.14, by centred sums. Kept by tests/outside/statistics/gum_h3_calibration_line.txt.
[[nodiscard]] StraightLine fit_straight_line(std::span<const double> x, std::span<const double> y, double origin);

}  // namespace fettle
