#include "entry/table_writer.h"

#include <algorithm>

namespace fettle {
namespace {

constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";

bool is_blank(char c) { return c == ' ' || c == '\t'; }

bool needs_quotes(std::string_view cell, const std::string& separators) {
  if (cell.empty()) return false;
  if (is_blank(cell.front()) || is_blank(cell.back()) || cell.front() == '#' || cell.starts_with(kByteOrderMark)) return true;
  return cell.find_first_of("\"\r\n" + separators) != std::string_view::npos;
}

std::string quoted(std::string_view cell) {
  std::string out = "\"";
  for (const char c : cell) {
    if (c == '"') out += '"';
    out += c;
  }
  return out + "\"";
}

}  // namespace

void TableWriter::row(const std::vector<std::string>& cells) {
  // A row of empty cells would be a blank line where it is one cell, or where tabs separate.
  const bool blank = std::all_of(cells.begin(), cells.end(), [](const auto& cell) { return cell.empty(); });
  // The reader finds the dialect from the header, where no other separator may stand open.
  const std::string separators = text_.empty() ? ",;\t" : std::string(1, separator_);
  for (std::size_t i = 0; i < cells.size(); ++i) {
    if (i > 0) text_ += separator_;
    text_ += (blank && i == 0) || needs_quotes(cells[i], separators) ? quoted(cells[i]) : cells[i];
  }
  text_ += line_end_;
}

}  // namespace fettle
