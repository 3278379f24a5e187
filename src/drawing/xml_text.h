#pragma once

#include <string>
#include <string_view>

namespace fettle {

/// The same text with U+FFFD for each byte that begins no UTF-8 character, or one that XML 1.0 does not allow.
[[nodiscard]] std::string clean_text(std::string_view text);

/// Cleaned, and escaped for an attribute or between tags. Kept by Svg.EscapesWhatXmlDoesNotAllow.
[[nodiscard]] std::string escaped_text(std::string_view text);

}  // namespace fettle
