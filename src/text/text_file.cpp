#include "text/text_file.h"

#include "base/assertion.h"

namespace fettle {
namespace {

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r") - first + 1);
}

std::string with_line_breaks(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\\' && i + 1 < text.size() && text[i + 1] == 'n') {
      out += '\n';
      ++i;
    } else {
      out += text[i];
    }
  }
  return out;
}

}  // namespace

void read_text_file(std::string_view text, std::string_view name, TextTable& table) {
  while (!text.empty()) {
    const auto end = text.find('\n');
    const std::string_view line = trimmed(text.substr(0, end));
    text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
    if (line.empty() || line.front() == '#') continue;
    const auto equals = line.find('=');
    FETTLE_ASSERT(equals != std::string_view::npos, std::string(name) + ": " + std::string(line));
    const std::string key(trimmed(line.substr(0, equals)));
    const bool fresh = table.emplace(key, with_line_breaks(trimmed(line.substr(equals + 1)))).second;
    FETTLE_ASSERT(fresh, std::string(name) + ": given twice: " + key);
  }
}

}  // namespace fettle
