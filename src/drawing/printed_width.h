#pragma once

#include <string_view>

#include "drawing/drawing.h"

namespace fettle {

/// How wide a text becomes in PDF and PNG, in the unit of `size`. Kept by PrintedWidth.IsTheWidthInPrint.
[[nodiscard]] double printed_width(std::string_view words, double size, Weight weight);

/// How many letters of a text the printed face does not have: they would come out as boxes.
[[nodiscard]] int letters_not_in_print(std::string_view words);

}  // namespace fettle
