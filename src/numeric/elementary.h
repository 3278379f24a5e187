#pragma once

namespace fettle {

// Exponential and logarithm from IEEE additions, multiplications, divisions and bit operations alone: libraries pick other
// instructions on other processors and differ in the last bit; these do not. Error at most 2 ulp over the stated range, kept by
// Elementary.AgreesWithLongDouble.

/// e^x. Needs −700 ≤ x ≤ 700; outside it gives the value at the nearer end.
[[nodiscard]] double exponential(double x);

/// ln x. Needs x > 0, normal and finite; else an InternalError.
[[nodiscard]] double natural_log(double x);

}  // namespace fettle
