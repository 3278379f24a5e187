#pragma once

namespace fettle {

/// Quantile of Student's t for 0 < probability < 1 and real degrees of freedom > 0, else an InternalError. The library beneath uses
/// the system's functions: print at most twelve digits. Reference key jcgm100 (table G.2).
[[nodiscard]] double student_t_quantile(double probability, double degrees_of_freedom);

/// The same for infinite degrees of freedom: the standard normal.
[[nodiscard]] double student_t_quantile_infinite(double probability);

}  // namespace fettle
