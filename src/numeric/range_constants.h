#pragma once

#include <cstddef>

namespace fettle {

// Ranges (largest less smallest) of `count` independent normal values of standard deviation 1, 2 <= count <= 100, else InternalError. No
// unit. From their definitions, by numerical integration: no table is kept. Source: tippett1925; the pooled ones patnaik1950.
// Kept by RangeConstants.* and tests/outside/statistics/range_constants.txt.

/// d2, the mean of the range. Relative error at most 1e-12.
[[nodiscard]] double range_mean(std::size_t count);

/// d3, the standard deviation of the range. Relative error at most 1e-9.
[[nodiscard]] double range_deviation(std::size_t count);

/// c4, the mean of the standard deviation of `count` values; any real count above 1. Relative error at most 1e-13.
[[nodiscard]] double deviation_mean(double count);

/// d2* = √(d2² + d3²/groups): mean range over `groups` of `count` values divided by it gives a standard deviation whose square is right on
/// average. Relative error at most 1e-9. Needs one or more groups.
[[nodiscard]] double pooled_range_divisor(std::size_t count, std::size_t groups);

/// Degrees of freedom of a standard deviation from a mean range: those of the χ whose mean and mean square are in the same proportion,
/// c4(ν + 1) = d2/d2*. Relative error at most 1e-6. Source: patnaik1950.
[[nodiscard]] double range_degrees_of_freedom(std::size_t count, std::size_t groups);

}  // namespace fettle
