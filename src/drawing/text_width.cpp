#include "drawing/text_width.h"

#include "base/assertion.h"

namespace fettle {
namespace {

// In em, as DejaVu Sans has them, rounded upward: it is among the widest faces in use.
constexpr double kThin = 0.32;
constexpr double kNarrow = 0.42;
constexpr double kMiddle = 0.65;
constexpr double kCapital = 0.79;
constexpr double kWide = 1.00;
constexpr double kBold = 1.11;

bool is_one_of(char letter, std::string_view letters) { return letters.find(letter) != std::string_view::npos; }

double width_of(char letter) {
  if (is_one_of(letter, " .,'ijlIJ")) return kThin;
  if (is_one_of(letter, ":;/|\\!frt-()[]")) return kNarrow;
  if (is_one_of(letter, "mwMW@%&+=<>~^#")) return kWide;
  return letter >= 'A' && letter <= 'Z' ? kCapital : kMiddle;
}

/// Bytes of the first letters that fit, at least one letter; whole UTF-8 characters only.
std::size_t bytes_within(std::string_view words, double size, Weight weight, double width) {
  std::size_t fits = 0;
  for (std::size_t end = 1; end <= words.size(); ++end) {
    const bool inside = end < words.size() && (static_cast<unsigned char>(words[end]) & 0xc0U) == 0x80U;
    if (inside) continue;
    if (fits > 0 && guessed_width(words.substr(0, end), size, weight) > width) break;
    fits = end;
  }
  return fits;
}

}  // namespace

double guessed_width(std::string_view words, double size, Weight weight) {
  double em = 0.0;
  for (const char letter : words) {
    const auto byte = static_cast<unsigned char>(letter);
    if (byte >= 0xe0U) {
      em += kWide;  // the first byte of three or four
    } else if (byte >= 0xc0U) {
      em += kCapital;  // of two: letters with accents
    } else if (byte < 0x80U) {
      em += width_of(letter);
    }
  }
  return em * size * (weight == Weight::bold ? kBold : 1.0);
}

std::vector<std::string> lines_within(std::string_view words, double size, Weight weight, double width) {
  FETTLE_ASSERT(width > 0.0, "no room for a text");
  std::vector<std::string> lines(1);
  while (!words.empty()) {
    const std::size_t space = words.find(' ');
    const std::string_view word = words.substr(0, space);
    words = space == std::string_view::npos ? std::string_view() : words.substr(space + 1);
    if (word.empty()) continue;
    const std::string longer = lines.back().empty() ? std::string(word) : lines.back() + " " + std::string(word);
    if (lines.back().empty() || guessed_width(longer, size, weight) <= width) {
      lines.back() = longer;
    } else {
      lines.emplace_back(word);
    }
  }
  return lines;
}

std::vector<std::string> broken_lines(std::string_view words, double size, Weight weight, double width) {
  std::vector<std::string> out;
  for (const std::string& line : lines_within(words, size, weight, width)) {
    std::string_view rest = line;
    while (!rest.empty() && guessed_width(rest, size, weight) > width) {
      const std::size_t bytes = bytes_within(rest, size, weight, width);
      out.emplace_back(rest.substr(0, bytes));
      rest.remove_prefix(bytes);
    }
    if (!rest.empty() || line.empty()) out.emplace_back(rest);
  }
  return out;
}

std::string shortened(std::string_view words, double size, Weight weight, double width) {
  FETTLE_ASSERT(width > 0.0, "no room for a text");
  if (guessed_width(words, size, weight) <= width) return std::string(words);
  constexpr std::string_view kCut = "\xe2\x80\xa6";
  std::string_view kept = words.substr(0, bytes_within(words, size, weight, width - guessed_width(kCut, size, weight)));
  while (!kept.empty() && kept.back() == ' ') kept.remove_suffix(1);
  return std::string(kept) + std::string(kCut);
}

}  // namespace fettle
