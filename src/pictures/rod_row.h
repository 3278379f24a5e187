#pragma once

#include "drawing/drawing.h"
#include "gauging/gauge_kit.h"
#include "text/sentence.h"

namespace fettle {

/// Rod, extension and washers in a row in the order they go on, from the gauge's head outward, with what is left of the contact's
/// travel at both ends: 328 wide. `wanted`: the size it is set to.
[[nodiscard]] Drawing rod_row_picture(const Assembly& assembly, Length wanted, UnitId unit, Language language);

}  // namespace fettle
