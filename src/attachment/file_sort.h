#pragma once

#include <string_view>

namespace fettle {

enum class FileSort { jpeg, png, pdf, other };

/// By the first bytes.
[[nodiscard]] FileSort sort_of(std::string_view bytes);

/// The name of a sort of picture that is known but not kept (HEIC, AVIF, WebP, TIFF, GIF, BMP); empty for all else.
[[nodiscard]] std::string_view other_picture(std::string_view bytes);

/// Whether a PDF's end stands where readers look for it: %%EOF within the last 1024 bytes.
[[nodiscard]] bool has_pdf_end(std::string_view bytes);

}  // namespace fettle
