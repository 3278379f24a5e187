#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "attachment/pixels.h"

namespace fettle {

struct PngHeader {
  std::uint64_t width;
  std::uint64_t height;
  unsigned bits;      ///< of one channel
  unsigned channels;  ///< 1 to 4
};
/// From the first chunk, before any library looks at it. Nothing if that is not one of a PNG.
[[nodiscard]] std::optional<PngHeader> png_header(std::string_view bytes);

/// The same pixels, upright, with depth, palette and transparency and no other chunk. Nothing if it cannot be decoded whole.
struct BarePng {
  std::string bytes;
  int width;
  int height;
};
[[nodiscard]] std::optional<BarePng> bare_png(std::string_view bytes);

/// Red, green, blue, eight bits each, on white where it is transparent.
[[nodiscard]] std::optional<Pixels> decode_png(std::string_view bytes);

}  // namespace fettle
