#pragma once

#include <cstdint>
#include <string>

#include "drawing/drawing.h"

namespace fettle {

struct Colour {
  std::uint8_t red;
  std::uint8_t green;
  std::uint8_t blue;
};

/// `paper` is dark ink on pale paper, `night` pale ink on dark paper. Both lay their own paper under the marks, so that
/// they are readable on any page.
enum class SvgPalette { paper, night };

struct SvgStyle {
  SvgPalette palette;
  /// Begins the ids in the file, so that several drawings can stand in one page: letters, digits and "-", a letter
  /// first.
  std::string id;
};

/// The colour that an ink has. Against the paper of the same palette every ink that may write text has a contrast of at
/// least 4.5 (wcag22 1.4.3), `wash` less by intent. Kept by Svg.InksOfTextKeepTheirContrast.
[[nodiscard]] Colour svg_colour(Ink ink, SvgPalette palette);

/// The drawing as one SVG 1.1 file, UTF-8: the paper, then the marks in their order. Text stays text, escaped; what XML
/// does not allow, and what is no UTF-8, becomes U+FFFD. Title and description come first, for screen readers. Numbers
/// have two decimals with a point, the same on every machine. Needs finite numbers, positive width, height and text
/// sizes, no negative lengths, no text in `wash`, and an id as SvgStyle says, else InternalError. Source: svg11. Kept
/// by Svg.WritesEveryKindOfMark and Svg.EscapesWhatXmlDoesNotAllow.
[[nodiscard]] std::string svg(const Drawing& drawing, const SvgStyle& style);

}  // namespace fettle
