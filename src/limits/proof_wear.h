#pragma once

#include "entry/typed_quantity.h"

namespace fettle {

/// How far a wear limit may stand from what is new before somebody should look again: 20 times the new tolerance. A size (a tolerance within a
/// hundredth of it) has at least 1/4000 of itself for a tolerance, since select-fit classes are finer than wear is; anything else at least half of its
/// greatest; and everything three of its last places.
/// In the base unit; needs from < to.
[[nodiscard]] double sane_wear_distance(const TypedQuantity& from, const TypedQuantity& to);
/// Outside of what is new, and no further away than that.
[[nodiscard]] bool is_sane_wear(const TypedQuantity& from, const TypedQuantity& to, const TypedQuantity& wear);

}  // namespace fettle
