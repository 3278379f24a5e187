#include "server/incoming.h"

#include <algorithm>

namespace fettle {
namespace {

char small_letter(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

std::string_view without_blanks(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

}  // namespace

bool same_field_name(std::string_view left, std::string_view right) {
  return std::equal(left.begin(), left.end(), right.begin(), right.end(), [](char a, char b) { return small_letter(a) == small_letter(b); });
}

std::size_t count_of_field(const Incoming& incoming, std::string_view name) {
  return static_cast<std::size_t>(
      std::count_if(incoming.fields.begin(), incoming.fields.end(), [&](const auto& field) { return same_field_name(field.first, name); }));
}

std::string_view field_of(const Incoming& incoming, std::string_view name) {
  for (const auto& [field, value] : incoming.fields) {
    if (same_field_name(field, name)) return value;
  }
  return {};
}

std::string_view cookie_of(const Incoming& incoming, std::string_view name) {
  for (const auto& [field, value] : incoming.fields) {
    if (!same_field_name(field, "Cookie")) continue;
    std::string_view rest = value;
    while (!rest.empty()) {
      const auto end = rest.find(';');
      const std::string_view each = without_blanks(rest.substr(0, end));
      rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
      const auto equals = each.find('=');
      if (equals != std::string_view::npos && each.substr(0, equals) == name) return each.substr(equals + 1);
    }
  }
  return {};
}

}  // namespace fettle
