#pragma once

#include <string>

#include "drawing/drawing.h"

namespace fettle {

/// `paper` and `night` carry their colours and lay their own paper under the marks, so that they are readable on any page.
/// `page` has neither: the page's style sheet colours the classes f-<ink> (fill) and s-<ink> (stroke), the text takes the
/// page's face, and the drawing is as wide as the page makes it.
enum class SvgPalette { paper, night, page };

struct SvgStyle {
  SvgPalette palette;
  /// Begins the ids in the file, so that several drawings can stand in one page: letters, digits and "-", a letter
  /// first.
  std::string id;
};

/// The drawing as one SVG 1.1 file, UTF-8: the paper, then the marks in their order. Text stays text, escaped; what XML
/// does not allow, and what is no UTF-8, becomes U+FFFD. Title and description come first, for screen readers. Numbers
/// have two decimals with a point, the same on every machine; in a `page` without zeros at their end. There is no style
/// attribute in it. A group becomes <g class="kind" data-place="place">; one that is `page_only` is left out of `paper` and
/// `night`. In a `page`, an area without fill and stroke takes taps (pointer-events="all").
/// Needs finite numbers, positive width, height and text sizes, no negative lengths, no text in `wash`, groups that match,
/// and an id as SvgStyle says, else InternalError. Source: svg11. Kept by Svg.WritesEveryKindOfMark, Svg.APageHasNoColours
/// and Svg.EscapesWhatXmlDoesNotAllow.
[[nodiscard]] std::string svg(const Drawing& drawing, const SvgStyle& style);

}  // namespace fettle
