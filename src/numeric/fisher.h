#pragma once

namespace fettle {

/// P(F > value) with `above` and `below` degrees of freedom. No unit. Needs both above 0, finite, and 0 <= value, else InternalError.
/// Relative error below 1e-12. Source: dlmf 8.17 (incomplete beta function). Kept by Fisher.*.
[[nodiscard]] double fisher_upper(double value, double above, double below);

}  // namespace fettle
