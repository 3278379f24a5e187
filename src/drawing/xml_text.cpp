#include "drawing/xml_text.h"

#include <cstdint>

namespace fettle {
namespace {

constexpr std::string_view kReplacement = "\xef\xbf\xbd";  // U+FFFD

/// Bytes of the UTF-8 character that `text` begins with; 0 if it begins with none that XML 1.0 allows.
std::size_t character_bytes(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
  const std::uint32_t first = byte(0);
  if (first < 0x80U) return first >= 0x20U || first == '\t' || first == '\n' || first == '\r' ? 1 : 0;
  const std::size_t bytes = first >= 0xf0U ? 4 : first >= 0xe0U ? 3 : 2;
  if (first < 0xc2U || first > 0xf4U || text.size() < bytes) return 0;
  std::uint32_t code = first & (0xffU >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xc0U) != 0x80U) return 0;
    code = code << 6U | (byte(i) & 0x3fU);
  }
  const bool too_long = (bytes == 3 && code < 0x800U) || (bytes == 4 && code < 0x10000U);
  const bool surrogate = code >= 0xd800U && code <= 0xdfffU;
  return too_long || surrogate || code == 0xfffeU || code == 0xffffU || code > 0x10ffffU ? 0 : bytes;
}

}  // namespace

std::string clean_text(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t bytes = character_bytes(text);
    out += bytes == 0 ? kReplacement : text.substr(0, bytes);
    text.remove_prefix(bytes == 0 ? 1 : bytes);
  }
  return out;
}

std::string escaped_text(std::string_view text) {
  std::string out;
  for (const char c : clean_text(text)) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '"') {
      out += "&quot;";
    } else {
      out += c;
    }
  }
  return out;
}

}  // namespace fettle
