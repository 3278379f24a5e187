#include "server/target.h"

#include <algorithm>

#include "base/document.h"
#include "server/route_pattern.h"

namespace fettle {
namespace {

bool is_of_a_target(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte > 0x20 && byte < 0x7f && c != '#' && c != '"' && c != '<' && c != '>' && c != '\\' && c != '^' && c != '`';
}

std::optional<std::string> query_word(std::string_view text) {
  std::string blanks(text);
  std::replace(blanks.begin(), blanks.end(), '+', ' ');
  auto word = percent_decoded(blanks);
  if (!word || !is_utf8(*word) || word->find('\0') != std::string::npos) return std::nullopt;
  return word;
}

}  // namespace

std::optional<Target> read_target(std::string_view text) {
  if (!text.starts_with('/') || !std::all_of(text.begin(), text.end(), is_of_a_target)) return std::nullopt;
  const auto question = text.find('?');
  Target out{std::string(text.substr(0, question)), {}};
  std::string_view rest = question == std::string_view::npos ? std::string_view() : text.substr(question + 1);
  while (!rest.empty()) {
    const auto end = rest.find('&');
    const std::string_view each = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
    if (each.empty()) continue;
    const auto equals = each.find('=');
    const auto name = query_word(each.substr(0, equals));
    const auto value = query_word(equals == std::string_view::npos ? std::string_view() : each.substr(equals + 1));
    if (!name || !value) return std::nullopt;
    out.query[*name] = *value;
  }
  return out;
}

}  // namespace fettle
