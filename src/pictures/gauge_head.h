#pragma once

#include <optional>

#include "catalogue/layout.h"
#include "drawing/drawing.h"
#include "entry/typed_quantity.h"
#include "text/sentence.h"

namespace fettle {

/// The head of a bore gauge with its sprung contact marked, and the thumb's arrow that presses it in, 328 wide. `pressed_in`: where
/// the needle then goes; nothing: that is the question.
[[nodiscard]] Drawing gauge_head_picture(std::optional<NeedleSide> pressed_in, Language language);

}  // namespace fettle
