#pragma once

#include <string>
#include <vector>

namespace fettle {

/// How far a table stands from the margin, in characters.
inline constexpr std::size_t kTableIndent = 4;

/// Rows of cells in columns as wide as their widest cell; widths count characters, not bytes. Every row is indented.
[[nodiscard]] std::string columns(const std::vector<std::vector<std::string>>& rows, std::size_t indent);

/// How many characters a UTF-8 text shows.
[[nodiscard]] std::size_t shown_width(const std::string& text);

}  // namespace fettle
