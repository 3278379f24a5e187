#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace fettle {

/// Row by row from the top, left to right, without gaps.
struct Pixels {
  int width;
  int height;
  std::size_t step;  ///< bytes of one pixel
  std::vector<unsigned char> bytes;
  bool operator==(const Pixels&) const = default;

  [[nodiscard]] std::size_t row() const { return step * static_cast<std::size_t>(width); }
};

/// Room for a picture of this size, black.
[[nodiscard]] Pixels room_for(int width, int height, std::size_t step);

/// How a camera was held, by the numbers 1 to 8 of EXIF 2.3, tag 0112: 1 is upright, 3 half a turn, 6 to be turned clockwise, 8
/// anticlockwise; 2, 4, 5, 7 the mirrored ones.
using Orientation = int;

/// The orientation in an EXIF block (TIFF header and first directory, as in JPEG's APP1 after "Exif\0\0" and in PNG's eXIf). 1 where the
/// block does not say, or not properly.
[[nodiscard]] Orientation orientation_in(std::string_view exif);

/// The picture as it was seen. Needs: orientation from 1 to 8.
[[nodiscard]] Pixels upright(Pixels pixels, Orientation orientation);

/// Scaled down to `longest` pixels on its longest side (never less than 1 on the other) by the mean over each new pixel's area, rounded;
/// unchanged if it is not larger. Exact in whole numbers, so alike on every machine.
[[nodiscard]] Pixels shrunk(const Pixels& pixels, int longest);

}  // namespace fettle
