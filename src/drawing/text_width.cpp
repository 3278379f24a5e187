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

}  // namespace fettle
