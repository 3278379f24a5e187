#pragma once

#include <optional>

namespace fettle {

// Student's t distribution for real degrees of freedom; no degrees given means infinitely many: the standard normal.
// The library beneath uses the system's elementary functions, so the last two digits may differ between machines: print
// at most twelve.

/// Probability of a value below t. No unit. Needs t finite and degrees of freedom above 0, finite, else InternalError.
/// Absolute error at most 1e-13. Source: dlmf 8.17 (incomplete beta function). Kept by
/// StudentT.DistributionHasItsClosedForms.
[[nodiscard]] double student_t_lower(double t, std::optional<double> degrees_of_freedom);

/// The t below which `probability` lies. No unit. Needs 0 < probability < 1, degrees of freedom above 0, finite, and an
/// answer that a double can hold (degrees far below 1 have quantiles beyond every number), else InternalError. Relative
/// error at most 1e-12 for 1 and more degrees of freedom. Kept by StudentT.QuantileHasItsClosedForms and by
/// tests/outside/statistics/student_t.txt (jcgm100 table G.2).
[[nodiscard]] double student_t_quantile(double probability, std::optional<double> degrees_of_freedom);

/// The same for infinitely many degrees of freedom.
[[nodiscard]] double student_t_quantile_infinite(double probability);

/// The coverage factor t_p(v): between minus and plus this lies `probability`. Needs and errors as the quantile.
[[nodiscard]] double student_t_coverage_factor(double probability, std::optional<double> degrees_of_freedom);

}  // namespace fettle
