#pragma once

namespace fettle {

/// Sine and cosine of an angle in degrees, from our own arithmetic (same bits on every machine); exact at every
/// multiple of 90 degrees. Needs |degrees| <= 1e6, else InternalError. Error at most 2e-16 absolute. Source:
/// dlmf 4.19.1 and 4.19.2 after exact reduction to 45 degrees. Kept by Angle.AgreesWithTheWiderType. T: double, long
/// double.
template <class T>
[[nodiscard]] T sine_of_degrees(T degrees);
template <class T>
[[nodiscard]] T cosine_of_degrees(T degrees);

/// Direction of the vector (x, y) in degrees, in (-180, 180]. Needs finite numbers, not both zero, else InternalError.
/// Error at most 1e-13 degrees. Source: dlmf 4.24.3 after turning by the nearest multiple of 11.25 degrees.
/// Kept by Angle.DirectionUndoesSineAndCosine.
[[nodiscard]] double direction_in_degrees(double y, double x);

}  // namespace fettle
