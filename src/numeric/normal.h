#pragma once

namespace fettle {

/// Density of the standard normal distribution. Any finite z.
[[nodiscard]] double normal_density(double z);

/// Φ(z), the probability that a standard normal is at most z. Relative error below 4e-14 for −37 ≤ z; below that the value at −37.
/// Marsaglia's series near the middle, the continued fraction of Mills' ratio in the tails. Reference key marsaglia2004, jcgm106.
[[nodiscard]] double normal_probability(double z);

/// Φ⁻¹(p), by Wichura's AS 241 (PPND16): relative error about 1e-16 stated there, 1e-14 measured here. Needs 0 < p < 1, else an
/// InternalError. Reference key wichura1988.
[[nodiscard]] double normal_quantile(double p);

}  // namespace fettle
