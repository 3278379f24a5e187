#include "simulate/chart_parts.h"

#include <algorithm>
#include <array>
#include <utility>

#include "base/assertion.h"
#include "drawing/text_width.h"

namespace fettle {
namespace {

constexpr double kLegendMarkWidth = 24.0;
constexpr double kLegendGap = 18.0;
constexpr Stroke kOutline = {Ink::ink, 1.6, Dash::solid};

void add_legend_mark(Drawing& drawing, Point middle, const LegendEntry& entry) {
  switch (entry.mark) {
    case LegendMark::symbol:
      add_symbol(drawing, middle, entry.series);
      return;
    case LegendMark::dashed_line:
      drawing.marks.emplace_back(
          Line{{middle.x - 9.0, middle.y}, {middle.x + 9.0, middle.y}, {Ink::ink, 1.4, Dash::dashed}});
      return;
    case LegendMark::tick:
      drawing.marks.emplace_back(
          Line{{middle.x, middle.y - 7.0}, {middle.x, middle.y + 7.0}, {Ink::ink, 3.0, Dash::solid}});
      return;
  }
  FETTLE_ASSERT(false, "a legend without a mark");
}

}  // namespace

Ink series_ink(std::size_t series) {
  constexpr std::array kInks = {Ink::accent, Ink::second, Ink::third, Ink::second, Ink::third, Ink::accent};
  FETTLE_ASSERT(series < kInks.size(), "more series than can be told apart");
  return kInks[series];
}

void add_symbol(Drawing& drawing, Point middle, std::size_t series) {
  const Ink ink = series_ink(series);
  const Ink fill = series < 3 ? ink : Ink::paper;
  const Stroke outline = {ink, kOutline.width, kOutline.dash};
  const double r = kSymbolRadius;
  switch (series % 3) {
    case 0:
      drawing.marks.emplace_back(Circle{middle, r, fill, outline});
      return;
    case 1:
      drawing.marks.emplace_back(Rect{{middle.x - 0.88 * r, middle.y - 0.88 * r}, 1.76 * r, 1.76 * r, fill, outline});
      return;
    default:
      drawing.marks.emplace_back(Polygon{{{middle.x, middle.y - 1.25 * r},
                                          {middle.x + 1.25 * r, middle.y},
                                          {middle.x, middle.y + 1.25 * r},
                                          {middle.x - 1.25 * r, middle.y}},
                                         fill,
                                         outline});
  }
}

void add_text(Drawing& drawing, Point at, Anchor anchor, std::string words, TextStyle style) {
  drawing.marks.emplace_back(Text{at, std::move(words), style.size, style.ink, anchor, style.weight});
}

double add_lines(Drawing& drawing, Point top, std::string_view words, TextStyle style, double width) {
  const double step = kLineStep * style.size;
  double y = top.y;
  for (std::string& line : lines_within(words, style.size, style.weight, width)) {
    y += step;
    add_text(drawing, {top.x, y - 0.35 * style.size}, Anchor::start, std::move(line), style);
  }
  return y;
}

double add_legend(Drawing& drawing, Point top, const std::vector<LegendEntry>& entries, double width) {
  const double step = kLineStep * kBodySize;
  double x = top.x;
  double y = top.y;  // upper edge of the line that is being filled
  double lower = y;
  for (const LegendEntry& entry : entries) {
    const double wanted = kLegendMarkWidth + guessed_width(entry.name, kBodySize, Weight::regular);
    if (x > top.x && x + wanted > top.x + width) {
      x = top.x;
      y = lower;
    }
    add_legend_mark(drawing, {x + kLegendMarkWidth / 2.0 - 2.0, y + 0.47 * step}, entry);
    const double room = top.x + width - x - kLegendMarkWidth;
    lower = std::max(lower, add_lines(drawing, {x + kLegendMarkWidth, y}, entry.name, kBodyText, room));
    x += wanted + kLegendGap;
  }
  return lower;
}

}  // namespace fettle
