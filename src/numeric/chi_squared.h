#pragma once

namespace fettle {

/// P(chi-squared with `degrees_of_freedom` > value). Needs 0 < degrees_of_freedom, finite, and 0 <= value, else InternalError.
/// Relative error below 1e-12 down to 1e-300. Source: dlmf 8.2.4 and 26.4.19-20 of abramowitz1964 (by the library's incomplete gamma
/// function, no promotion to a wider type). Kept by ChiSquared.AgreesWithTables.
[[nodiscard]] double chi_squared_upper(double value, double degrees_of_freedom);

}  // namespace fettle
