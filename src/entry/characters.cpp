#include "entry/characters.h"

namespace fettle {

std::vector<char32_t> code_points(std::string_view text) {
  std::vector<char32_t> out;
  std::size_t i = 0;
  while (i < text.size()) {
    const auto lead = static_cast<unsigned char>(text[i]);
    const std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    char32_t point = length == 1 ? lead : lead & (0x7FU >> length);
    for (std::size_t k = 1; k < length && i + k < text.size(); ++k) {
      point = (point << 6U) | (static_cast<unsigned char>(text[i + k]) & 0x3FU);
    }
    out.push_back(point);
    i += length;
  }
  return out;
}

std::string utf8(const std::vector<char32_t>& points, std::size_t from, std::size_t to) {
  std::string out;
  for (std::size_t i = from; i < to && i < points.size(); ++i) {
    const char32_t c = points[i];
    if (c < 0x80) {
      out += static_cast<char>(c);
    } else if (c < 0x800) {
      out += static_cast<char>(0xC0U | (c >> 6U));
      out += static_cast<char>(0x80U | (c & 0x3FU));
    } else if (c < 0x10000) {
      out += static_cast<char>(0xE0U | (c >> 12U));
      out += static_cast<char>(0x80U | ((c >> 6U) & 0x3FU));
      out += static_cast<char>(0x80U | (c & 0x3FU));
    } else {
      out += static_cast<char>(0xF0U | (c >> 18U));
      out += static_cast<char>(0x80U | ((c >> 12U) & 0x3FU));
      out += static_cast<char>(0x80U | ((c >> 6U) & 0x3FU));
      out += static_cast<char>(0x80U | (c & 0x3FU));
    }
  }
  return out;
}

char32_t plain_form(char32_t point) {
  if (point >= U'\u2000' && point <= U'\u200A') return U' ';
  switch (point) {
    case U'−':  // minus
    case U'–':  // en dash
    case U'‒':  // figure dash
    case U'‐':  // hyphen
    case U'‑':  // non-breaking hyphen
    case U'－':
    case U'﹣': return U'-';
    case U'＋': return U'+';
    case U'⁄':  // fraction slash
    case U'∕': return U'/';
    case U'⋅': return U'·';
    case U'\t':
    case U'\u00A0':
    case U'\u202F':
    case U'\u205F':
    case U'\u3000': return U' ';
    default: return point;
  }
}

bool is_unseen(char32_t point) {
  const bool control = point < 0x20 || (point >= 0x7F && point <= 0x9F);
  const bool no_width = point == 0xAD || (point >= 0x200B && point <= 0x200F) || (point >= 0x2028 && point <= 0x202E) ||
                        (point >= 0x2060 && point <= 0x206F) || point == 0xFEFF;
  return control || no_width;
}

bool is_fraction_sign(char32_t point) { return (point >= U'¼' && point <= U'¾') || (point >= U'⅐' && point <= U'⅞'); }

bool stands_at(const std::vector<char32_t>& points, std::size_t from, const std::vector<char32_t>& word) {
  if (from > points.size() || points.size() - from < word.size()) return false;
  for (std::size_t i = 0; i < word.size(); ++i) {
    const char32_t point = points[from + i];
    const char32_t lower = point >= U'A' && point <= U'Z' ? point - U'A' + U'a' : point;
    if (lower != word[i]) return false;
  }
  return true;
}

std::string ascii_lower(std::string_view text) {
  std::string out(text);
  for (char& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

}  // namespace fettle
