#pragma once

#include <string>

namespace fettle {

/// How many characters a line of a paragraph may have: what every terminal shows.
inline constexpr std::size_t kPageWidth = 80;

/// `lead` and then the text, broken at its spaces so that no line is wider than the page; the lines after the first are indented as far as
/// `lead` is wide. A word that is wider stands on a line of its own. Ends with a line break; widths count characters, not bytes.
[[nodiscard]] std::string paragraph(const std::string& lead, const std::string& text);

}  // namespace fettle
