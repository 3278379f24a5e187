#pragma once

#include <string>

namespace fettle {

/// The text as a square code (ISO/IEC 18004, error correction M: up to 15 % of it may be dirty), an SVG of dark squares on white with its quiet
/// rim of four. `title` is for screen readers. Needs a text of at most 1000 bytes.
[[nodiscard]] std::string qr_picture(const std::string& text, const std::string& title);

}  // namespace fettle
