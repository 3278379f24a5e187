#include "entry/table_text.h"

#include <algorithm>
#include <array>

#include "base/document.h"

namespace fettle {
namespace {

constexpr std::array<char, 3> kSeparators = {';', '\t', ','};

/// The second to fourth byte of a character.
bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U; }

int characters_in(std::string_view text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) { return !continues(c); }));
}

}  // namespace

std::string_view TableText::rest_of_line() const { return rest_.substr(0, rest_.find_first_of("\r\n")); }

void TableText::skip(std::size_t bytes) {
  column_ += characters_in(rest_.substr(0, bytes));
  rest_.remove_prefix(std::min(bytes, rest_.size()));
}

void TableText::skip_blanks() {
  while (at(' ') || at('\t')) skip(1);
}

void TableText::skip_line_end() {
  if (done()) return;
  rest_.remove_prefix(rest_.starts_with("\r\n") ? 2 : 1);
  ++line_;
  column_ = 1;
}

void TableText::skip_line() {
  skip(rest_of_line().size());
  skip_line_end();
}

std::optional<TextPosition> first_bad_byte(std::string_view text) {
  if (is_utf8(text)) return std::nullopt;
  TableText walk(text);
  while (is_utf8(walk.rest_of_line())) walk.skip_line();
  const std::string_view line = walk.rest_of_line();
  std::size_t good = 0;
  while (good < line.size()) {
    std::size_t length = 1;
    while (length < 4 && good + length < line.size() && continues(line[good + length])) ++length;
    if (!is_utf8(line.substr(good, length))) break;
    good += length;
  }
  return TextPosition{walk.line(), characters_in(line.substr(0, good)) + 1};
}

char separator_of(std::string_view header_line) {
  std::array<std::size_t, kSeparators.size()> used{};
  bool quoted = false;
  for (char c : header_line) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    const auto found = std::find(kSeparators.begin(), kSeparators.end(), c);
    if (found != kSeparators.end()) ++used[static_cast<std::size_t>(found - kSeparators.begin())];
  }
  const auto most = std::max_element(used.begin(), used.end());
  return *most == 0 ? ',' : kSeparators[static_cast<std::size_t>(most - used.begin())];
}

}  // namespace fettle
