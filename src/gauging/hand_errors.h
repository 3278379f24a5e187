#pragma once

namespace fettle {

/// How much a two-point gauge reads too large when it leans along the bore: D·(1/cos φ − 1), mm. Needs |degrees| < 60; relative
/// error below 1e-12. Geometry; vector K-08.
[[nodiscard]] double tilt_error_mm(double diameter_mm, double degrees);

/// How much a two-point gauge reads too small when it measures a chord `offset_mm` off the axis: 2·√(r² − o²) − D, mm (negative).
/// Needs |offset| below the radius. Geometry; vector K-08.
[[nodiscard]] double chord_error_mm(double diameter_mm, double offset_mm);

}  // namespace fettle
