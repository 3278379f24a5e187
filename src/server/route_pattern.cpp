#include "server/route_pattern.h"

#include <algorithm>

#include "base/document.h"

namespace fettle {
namespace {

int hexadecimal(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

bool is_plain_word(std::string_view word) { return !word.empty() && is_utf8(word) && !has_control_character(word); }

std::string_view next_part(std::string_view& rest) {
  const auto end = rest.find('/');
  const std::string_view part = rest.substr(0, end);
  rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  return part;
}

}  // namespace

std::optional<std::string> percent_decoded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '%') {
      out += text[i];
      continue;
    }
    if (i + 2 >= text.size()) return {};
    const int high = hexadecimal(text[i + 1]);
    const int low = hexadecimal(text[i + 2]);
    if (high < 0 || low < 0) return {};
    out += static_cast<char>(high * 16 + low);
    i += 2;
  }
  return out;
}

std::optional<std::map<std::string, std::string>> match_path(std::string_view pattern, std::string_view path) {
  if (std::count(pattern.begin(), pattern.end(), '/') != std::count(path.begin(), path.end(), '/')) return {};
  std::map<std::string, std::string> words;
  while (!pattern.empty() || !path.empty()) {
    const std::string_view wanted = next_part(pattern);
    const std::string_view given = next_part(path);
    if (!wanted.starts_with('{')) {
      if (wanted != given) return {};
      continue;
    }
    const auto word = percent_decoded(given);
    if (!word || !is_plain_word(*word)) return {};
    words[std::string(wanted.substr(1, wanted.size() - 2))] = *word;
  }
  return words;
}

}  // namespace fettle
