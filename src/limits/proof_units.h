#pragma once

#include "entry/typed_quantity.h"

namespace fettle {

/// Whether two figures are the same, as far as half a last place of each goes. Of one dimension.
[[nodiscard]] bool units_agree(const TypedQuantity& a, const TypedQuantity& b);

}  // namespace fettle
