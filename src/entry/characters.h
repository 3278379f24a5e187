#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace fettle {

/// Code points of UTF-8 text that base/document.h's is_utf8 has accepted.
[[nodiscard]] std::vector<char32_t> code_points(std::string_view text);
[[nodiscard]] std::string utf8(const std::vector<char32_t>& points, std::size_t from, std::size_t to);

/// Typographic signs as one ASCII form: every minus and hyphen that keyboards and phones make is '-', every blank ' ', a wide plus '+',
/// every stroke of a fraction '/'; a raised dot is '·'. Everything else stays.
[[nodiscard]] char32_t plain_form(char32_t point);

/// Control characters and those that have no width: nobody can see that they are there.
[[nodiscard]] bool is_unseen(char32_t point);

[[nodiscard]] constexpr bool is_digit(char32_t point) { return point >= U'0' && point <= U'9'; }
/// ½ and its like.
[[nodiscard]] bool is_fraction_sign(char32_t point);

/// True if [from, from + word.size()) of `points` is `word`, which stands in ASCII lower case; the ASCII case of `points` is ignored.
[[nodiscard]] bool stands_at(const std::vector<char32_t>& points, std::size_t from, const std::vector<char32_t>& word);

/// Lower case of the ASCII letters only, in every locale the same.
[[nodiscard]] std::string ascii_lower(std::string_view text);

}  // namespace fettle
