#include "attachment/jpeg.h"

#include "attachment/jpeg_library.h"
#include "base/assertion.h"

namespace fettle {
namespace {

using namespace std::string_view_literals;

constexpr std::string_view kExif = "Exif\0\0"sv;
constexpr unsigned kEightBits = 8;

Orientation orientation_of(jpeg_decompress_struct& info) {
  for (const jpeg_marker_struct* marker = info.marker_list; marker != nullptr; marker = marker->next) {
    const std::string_view bytes(static_cast<const char*>(static_cast<const void*>(marker->data)), marker->data_length);
    if (bytes.starts_with(kExif)) return orientation_in(bytes.substr(kExif.size()));
  }
  return 1;
}

bool is_decodable(const jpeg_decompress_struct& info) {
  return info.data_precision == kEightBits && (info.num_components == 1 || info.num_components == 3 || info.num_components == 4);
}

/// What is printed over white paper: cyan, magenta and yellow take their part away, and black of what they leave. Files that a certain
/// marker names hold how much is left, others how much is printed.
Pixels from_printing_colours(const Pixels& printed, bool holds_what_is_left) {
  Pixels out = room_for(printed.width, printed.height, 3);
  const auto left = [&](std::size_t at) -> unsigned { return holds_what_is_left ? printed.bytes[at] : 255U - printed.bytes[at]; };
  for (std::size_t i = 0; i < out.bytes.size(); ++i) {
    const std::size_t pixel = i / 3 * 4;
    out.bytes[i] = static_cast<unsigned char>((left(pixel + i % 3) * left(pixel + 3) + 127U) / 255U);
  }
  return out;
}

}  // namespace

std::optional<JpegHeader> jpeg_header(std::string_view bytes) {
  JpegTrouble trouble;
  JpegReader reader(bytes, trouble);
  if (!reader.read_header() || !is_decodable(reader.info())) return std::nullopt;
  jpeg_decompress_struct& info = reader.info();
  return JpegHeader{static_cast<int>(info.image_width), static_cast<int>(info.image_height), info.num_components, orientation_of(info)};
}

std::optional<BareJpeg> bare_jpeg(std::string_view bytes) {
  JpegTrouble trouble;
  JpegReader reader(bytes, trouble);
  JpegWriter writer(trouble);
  if (!reader.read_header() || !writer.copy_coefficients(reader)) return std::nullopt;
  return BareJpeg{writer.take(), trouble.complained};
}

std::optional<DecodedJpeg> decode_jpeg(std::string_view bytes) {
  JpegTrouble trouble;
  JpegReader reader(bytes, trouble);
  if (!reader.read_header() || !is_decodable(reader.info())) return std::nullopt;
  jpeg_decompress_struct& info = reader.info();
  const bool printed = info.num_components == 4;
  Pixels pixels = room_for(static_cast<int>(info.image_width), static_cast<int>(info.image_height), printed ? 4 : 3);
  if (!reader.decode(pixels.bytes.data(), pixels.row())) return std::nullopt;
  if (printed) pixels = from_printing_colours(pixels, info.saw_Adobe_marker != FALSE);
  return DecodedJpeg{std::move(pixels), trouble.complained};
}

std::string encode_jpeg(const Pixels& pixels, int quality, JpegColour colour) {
  FETTLE_ASSERT(pixels.step == 3, std::to_string(pixels.step));
  JpegTrouble trouble;
  JpegWriter writer(trouble);
  const bool done = writer.encode({pixels.bytes.data(), pixels.row(), pixels.width, pixels.height}, quality, colour == JpegColour::grey);
  FETTLE_ASSERT(done, std::to_string(pixels.width) + " x " + std::to_string(pixels.height));
  return writer.take();
}

}  // namespace fettle
