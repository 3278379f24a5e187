#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// Code points of UTF-8 text that base/document.h's is_utf8 has accepted.
[[nodiscard]] std::vector<char32_t> code_points(std::string_view text);
[[nodiscard]] std::string utf8(const std::vector<char32_t>& points, std::size_t from, std::size_t to);

/// Typographic signs as one ASCII form: every minus and hyphen that keyboards and phones make is '-', every space ' ', a wide plus
/// '+'. Everything else stays.
[[nodiscard]] char32_t plain_form(char32_t point);

/// Lower case of the ASCII letters only, in every locale the same.
[[nodiscard]] std::string ascii_lower(std::string_view text);

}  // namespace fettle
