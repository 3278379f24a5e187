#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "drawing/drawing.h"

namespace fettle {

// What the charts of scores share. All lengths in pixels.

inline constexpr double kChartMargin = 16.0;
inline constexpr double kTitleSize = 16.0;
inline constexpr double kBodySize = 13.0;
inline constexpr double kSmallSize = 12.0;
/// Base line to base line, in sizes of the text.
inline constexpr double kLineStep = 1.35;
inline constexpr double kSymbolRadius = 4.5;
inline constexpr Stroke kGuideLine = {Ink::wash, 1.0, Dash::solid};
/// Series that can be told apart: three outlines, full and hollow, so that no difference rests on colour alone.
inline constexpr std::size_t kSymbols = 6;

/// The ink of the n-th series. Needs series < kSymbols, else InternalError.
[[nodiscard]] Ink series_ink(std::size_t series);

/// The mark of the n-th series around a point. Needs series < kSymbols, else InternalError.
void add_symbol(Drawing& drawing, Point middle, std::size_t series);

struct TextStyle {
  double size;
  Ink ink;
  Weight weight;
};

inline constexpr TextStyle kTitleText = {kTitleSize, Ink::ink, Weight::bold};
inline constexpr TextStyle kBodyText = {kBodySize, Ink::ink, Weight::regular};
inline constexpr TextStyle kSmallText = {kSmallSize, Ink::faint, Weight::regular};

void add_text(Drawing& drawing, Point at, Anchor anchor, std::string words, TextStyle style);

/// Writes a text as lines not wider than `width` below `top`. Gives the lower edge.
[[nodiscard]] double add_lines(Drawing& drawing, Point top, std::string_view words, TextStyle style, double width);

enum class LegendMark { symbol, dashed_line, tick };

struct LegendEntry {
  LegendMark mark;
  std::size_t series;  // of a symbol
  std::string name;
};

/// Entries one after the other, on a new line where one has no room; a long name is cut into lines. Gives the lower
/// edge.
[[nodiscard]] double add_legend(Drawing& drawing, Point top, const std::vector<LegendEntry>& entries, double width);

}  // namespace fettle
