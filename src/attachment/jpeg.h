#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "attachment/pixels.h"

namespace fettle {

struct JpegHeader {
  int width;
  int height;
  int channels;  ///< 1 grey, 3 colour, 4 printing colours
  Orientation orientation;
};
/// Nothing if no picture of a sort that we decode begins here.
[[nodiscard]] std::optional<JpegHeader> jpeg_header(std::string_view bytes);

/// The same picture coefficient by coefficient, with no marker but those that decoding needs. Nothing if it cannot be read.
struct BareJpeg {
  std::string bytes;
  bool damaged;  ///< the decoder complained
};
[[nodiscard]] std::optional<BareJpeg> bare_jpeg(std::string_view bytes);

/// Red, green, blue; printing colours are turned into these.
struct DecodedJpeg {
  Pixels pixels;
  bool damaged;
};
[[nodiscard]] std::optional<DecodedJpeg> decode_jpeg(std::string_view bytes);

enum class JpegColour { grey, colour };
/// Needs: red, green, blue; no side above 65500 pixels. Colour is kept at full resolution.
[[nodiscard]] std::string encode_jpeg(const Pixels& pixels, int quality, JpegColour colour);

}  // namespace fettle
