#include "cli/table.h"

#include <algorithm>

namespace fettle {

std::size_t shown_width(const std::string& text) {
  std::size_t width = 0;
  bool in_colour = false;
  for (char c : text) {
    if (c == '\x1b') in_colour = true;
    if (!in_colour && (static_cast<unsigned char>(c) & 0xC0U) != 0x80U) ++width;
    if (in_colour && c == 'm') in_colour = false;
  }
  return width;
}

std::string columns(const std::vector<std::vector<std::string>>& rows, std::size_t indent) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    if (row.size() > widths.size()) widths.resize(row.size());
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], shown_width(row[i]));
  }
  std::string out;
  for (const auto& row : rows) {
    std::string line(indent, ' ');
    for (std::size_t i = 0; i < row.size(); ++i) {
      line += row[i];
      if (i + 1 < row.size()) line += std::string(widths[i] - shown_width(row[i]) + 2, ' ');
    }
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  }
  return out;
}

}  // namespace fettle
