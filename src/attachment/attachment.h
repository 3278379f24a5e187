#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace fettle {

/// Of what is handed in, and of what is kept of it: 24 MiB.
inline constexpr std::size_t kMostAttachmentBytes = std::size_t{24} << 20U;
/// Width times height; a pixel of a PNG with 16 bits a channel counts twice.
inline constexpr std::uint64_t kMostPixels = 60'000'000;
/// Longest side of a thumbnail in pixels.
inline constexpr int kThumbnailSide = 320;

/// A photo or a paper as it may be kept.
struct Attachment {
  std::string type;           ///< image/jpeg, image/png, application/pdf
  std::string bytes;          ///< what is kept, not what was handed in
  std::string thumbnail;      ///< JPEG, upright; empty for a PDF
  std::optional<int> width;   ///< of the upright picture; nothing for a PDF
  std::optional<int> height;
  std::string hash;           ///< file_digest of bytes
  std::vector<Message> notices;
  bool operator==(const Attachment&) const = default;
};

/// Bytes that a person hands in -> what may be kept. The first bytes decide what it is, never a name.
///
/// JPEG and PNG: rewritten with the picture alone, so that place, time, camera, comments, colour profiles, embedded previews and whatever hangs
/// on behind the picture are gone. A JPEG that lies upright keeps its picture without loss; one that its camera marked as turned or mirrored
/// is set upright and compressed anew at quality 92, as is one in printing colours. A PNG keeps every pixel, with depth, palette and
/// transparency. A JPEG that decodes with complaints is kept with notice.attachment_damaged.
/// PDF: kept as it is, with whatever its maker wrote into it.
///
/// The same bytes give the same; what is kept, handed in again, is kept as it is. Problems: attachment.empty, attachment.too_large,
/// attachment.too_many_pixels (said by the header, before anything is decoded), attachment.other_picture, attachment.other_type,
/// attachment.cannot_decode, attachment.pdf_cut_off. At the limit of pixels it takes some seconds and about 500 MB.
[[nodiscard]] Result<Attachment> read_attachment(std::string_view bytes, const Place& place);

}  // namespace fettle
