#include "attachment/png_picture.h"

#include <utility>

#include "attachment/png_library.h"

namespace fettle {
namespace {

/// Highest byte first.
std::uint32_t number_at(std::string_view bytes, std::size_t at) {
  std::uint32_t out = 0;
  for (std::size_t i = 0; i < 4; ++i) out = (out << 8U) | static_cast<unsigned char>(bytes[at + i]);
  return out;
}

unsigned channels_of(unsigned colour) {
  switch (colour) {
    case PNG_COLOR_TYPE_GRAY:
    case PNG_COLOR_TYPE_PALETTE: return 1;
    case PNG_COLOR_TYPE_GRAY_ALPHA: return 2;
    case PNG_COLOR_TYPE_RGB: return 3;
    case PNG_COLOR_TYPE_RGB_ALPHA: return 4;
    default: return 0;
  }
}

/// Frees what libpng keeps for a picture that was begun.
struct Begun {
  png_image image;
  Begun() : image{} { image.version = PNG_IMAGE_VERSION; }
  Begun(const Begun&) = delete;
  Begun& operator=(const Begun&) = delete;
  ~Begun() { png_image_free(&image); }
};

}  // namespace

std::optional<PngHeader> png_header(std::string_view bytes) {
  constexpr std::size_t kEndOfHeader = 29;
  if (bytes.size() < kEndOfHeader || bytes.substr(12, 4) != "IHDR") return std::nullopt;
  const auto bits = static_cast<unsigned char>(bytes[24]);
  const unsigned channels = channels_of(static_cast<unsigned char>(bytes[25]));
  if (channels == 0 || bits == 0 || bits > 16) return std::nullopt;
  return PngHeader{number_at(bytes, 16), number_at(bytes, 20), bits, channels};
}

std::optional<BarePng> bare_png(std::string_view bytes) {
  PngReader reader(bytes);
  if (!reader.read_header()) return std::nullopt;
  PngShape shape = reader.shape();
  const std::size_t step = reader.row() / shape.width;
  Pixels pixels = room_for(static_cast<int>(shape.width), static_cast<int>(shape.height), step);
  if (!reader.decode(pixels.bytes.data())) return std::nullopt;
  pixels = upright(std::move(pixels), orientation_in(reader.exif()));
  shape = reader.shape();
  shape.width = static_cast<png_uint_32>(pixels.width);
  shape.height = static_cast<png_uint_32>(pixels.height);
  PngWriter writer;
  if (!writer.encode(shape, pixels.bytes.data(), pixels.row())) return std::nullopt;
  return BarePng{writer.bytes(), pixels.width, pixels.height};
}

std::optional<Pixels> decode_png(std::string_view bytes) {
  constexpr png_color kWhite = {255, 255, 255};
  Begun begun;
  if (png_image_begin_read_from_memory(&begun.image, bytes.data(), bytes.size()) == 0) return std::nullopt;
  begun.image.format = PNG_FORMAT_RGB;
  begun.image.flags |= PNG_IMAGE_FLAG_16BIT_sRGB;
  Pixels out = room_for(static_cast<int>(begun.image.width), static_cast<int>(begun.image.height), 3);
  if (png_image_finish_read(&begun.image, &kWhite, out.bytes.data(), 0, nullptr) == 0) return std::nullopt;
  return out;
}

}  // namespace fettle
