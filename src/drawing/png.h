#pragma once

#include <string>

#include "drawing/drawing.h"
#include "drawing/palette.h"

namespace fettle {

struct PngStyle {
  Palette palette;
  double pixels_per_unit;  ///< 2: twice the size in pixels
};

/// The drawing as one PNG, its size in pixels rounded upward. Groups for pages are left out. The same bytes for the same drawing. Needs
/// a picture of at most 32,767 pixels a side, and what svg() needs, else InternalError. Kept by Png.*.
[[nodiscard]] std::string png(const Drawing& drawing, const PngStyle& style);

}  // namespace fettle
