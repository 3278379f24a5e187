#include "attachment/attachment.h"

#include "attachment/file_sort.h"
#include "attachment/jpeg.h"
#include "attachment/png_picture.h"
#include "base/digest.h"

namespace fettle {
namespace {

constexpr int kPhotoQuality = 92;
constexpr int kThumbnailQuality = 85;
/// Deflate gives at most 258 bytes for every two bits.
constexpr std::uint64_t kMostGrowth = 1032;

struct KeptPicture {
  std::string bytes;
  Pixels pixels;  ///< upright: red, green, blue
  bool damaged;
};

Problem too_large(const Place& place) {
  return {"attachment.too_large", place, {count("most", static_cast<std::int64_t>(kMostAttachmentBytes >> 20U))}};
}

Problem too_many_pixels(const Place& place, std::uint64_t width, std::uint64_t height) {
  return {"attachment.too_many_pixels", place,
          {count("width", static_cast<std::int64_t>(width)), count("height", static_cast<std::int64_t>(height)),
           count("most", static_cast<std::int64_t>(kMostPixels / 1'000'000))}};
}

Problem cannot_decode(const Place& place, std::string format) {
  return {"attachment.cannot_decode", place, {verbatim("format", std::move(format))}};
}

Result<Attachment> kept(std::string type, KeptPicture picture, const Place& place) {
  if (picture.bytes.size() > kMostAttachmentBytes) return too_large(place);
  Attachment out{std::move(type), std::move(picture.bytes), {}, picture.pixels.width, picture.pixels.height, {}, {}};
  out.thumbnail = encode_jpeg(shrunk(picture.pixels, kThumbnailSide), kThumbnailQuality, JpegColour::colour);
  out.hash = file_digest(out.bytes);
  if (picture.damaged) out.notices.push_back(Message{"notice.attachment_damaged", {}});
  return out;
}

/// Coefficient by coefficient where the picture lies upright.
std::optional<KeptPicture> keep_without_loss(std::string_view bytes) {
  std::optional<BareJpeg> bare = bare_jpeg(bytes);
  if (!bare) return std::nullopt;
  std::optional<DecodedJpeg> decoded = decode_jpeg(bare->bytes);
  if (!decoded) return std::nullopt;
  return KeptPicture{std::move(bare->bytes), std::move(decoded->pixels), bare->damaged || decoded->damaged};
}

std::optional<KeptPicture> keep_compressed_anew(std::string_view bytes, const JpegHeader& header) {
  std::optional<DecodedJpeg> decoded = decode_jpeg(bytes);
  if (!decoded) return std::nullopt;
  Pixels pixels = upright(std::move(decoded->pixels), header.orientation);
  std::string encoded = encode_jpeg(pixels, kPhotoQuality, header.channels == 1 ? JpegColour::grey : JpegColour::colour);
  return KeptPicture{std::move(encoded), std::move(pixels), decoded->damaged};
}

/// Every block of 8 by 8 pixels takes one bit at least.
bool can_hold(std::string_view bytes, const JpegHeader& header) {
  const auto blocks = [](int length) { return (static_cast<std::uint64_t>(length) + 7) / 8; };
  return blocks(header.width) * blocks(header.height) <= bytes.size() * 8;
}

Result<Attachment> read_jpeg(std::string_view bytes, const Place& place) {
  const std::optional<JpegHeader> header = jpeg_header(bytes);
  if (!header) return cannot_decode(place, "JPEG");
  const auto width = static_cast<std::uint64_t>(header->width);
  const auto height = static_cast<std::uint64_t>(header->height);
  if (width * height > kMostPixels) return too_many_pixels(place, width, height);
  if (!can_hold(bytes, *header)) return cannot_decode(place, "JPEG");
  std::optional<KeptPicture> picture;
  if (header->orientation == 1 && header->channels != 4) picture = keep_without_loss(bytes);
  if (!picture) picture = keep_compressed_anew(bytes, *header);
  if (!picture) return cannot_decode(place, "JPEG");
  return kept("image/jpeg", *std::move(picture), place);
}

bool can_hold(std::string_view bytes, const PngHeader& header) {
  const std::uint64_t row = (header.width * header.channels * header.bits + 7) / 8;
  return row * header.height <= bytes.size() * kMostGrowth;
}

Result<Attachment> read_png(std::string_view bytes, const Place& place) {
  const std::optional<PngHeader> header = png_header(bytes);
  if (!header) return cannot_decode(place, "PNG");
  const std::uint64_t weight = header->bits == 16 ? 2 : 1;
  if (header->width * header->height > kMostPixels / weight) return too_many_pixels(place, header->width, header->height);
  if (!can_hold(bytes, *header)) return cannot_decode(place, "PNG");
  std::optional<BarePng> bare = bare_png(bytes);
  if (!bare) return cannot_decode(place, "PNG");
  std::optional<Pixels> pixels = decode_png(bare->bytes);
  if (!pixels) return cannot_decode(place, "PNG");
  return kept("image/png", {std::move(bare->bytes), *std::move(pixels), false}, place);
}

Result<Attachment> read_pdf(std::string_view bytes, const Place& place) {
  if (!has_pdf_end(bytes)) return Problem{"attachment.pdf_cut_off", place, {}};
  return Attachment{"application/pdf", std::string(bytes), {}, std::nullopt, std::nullopt, file_digest(bytes), {}};
}

Problem other(std::string_view bytes, const Place& place) {
  const std::string_view format = other_picture(bytes);
  if (format.empty()) return {"attachment.other_type", place, {}};
  return {"attachment.other_picture", place, {verbatim("format", std::string(format))}};
}

}  // namespace

Result<Attachment> read_attachment(std::string_view bytes, const Place& place) {
  if (bytes.empty()) return Problem{"attachment.empty", place, {}};
  if (bytes.size() > kMostAttachmentBytes) return too_large(place);
  switch (sort_of(bytes)) {
    case FileSort::jpeg: return read_jpeg(bytes, place);
    case FileSort::png: return read_png(bytes, place);
    case FileSort::pdf: return read_pdf(bytes, place);
    case FileSort::other: return other(bytes, place);
  }
  FETTLE_ASSERT(false, "a sort that is none");
}

}  // namespace fettle
