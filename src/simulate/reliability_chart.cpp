#include "simulate/reliability_chart.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "drawing/text_width.h"
#include "simulate/chart_parts.h"

namespace fettle {
namespace {

constexpr double kLargestSide = 440.0;
constexpr double kSideNotesFrom = 680.0;
constexpr double kCountBars = 40.0;
constexpr double kCountSize = 11.0;
constexpr Stroke kFrame = {Ink::faint, 1.0, Dash::solid};

/// A square whose edges run from 0 to 1.
struct Field {
  double left;
  double top;
  double side;

  [[nodiscard]] Point at(double across, double up) const { return {left + across * side, top + (1.0 - up) * side}; }
  [[nodiscard]] double bottom() const { return top + side; }
};

void add_field(Drawing& drawing, const Field& field, const std::string& percent) {
  for (int i = 0; i <= 5; ++i) {
    const double part = i / 5.0;
    const std::string label = std::to_string(20 * i) + percent;
    const Point across = field.at(part, 0.0);
    const Point up = field.at(0.0, part);
    drawing.marks.emplace_back(Line{across, field.at(part, 1.0), kGuideLine});
    drawing.marks.emplace_back(Line{up, field.at(1.0, part), kGuideLine});
    add_text(drawing, {across.x, across.y + 17.0}, Anchor::middle, label, kSmallText);
    add_text(drawing, {up.x - 7.0, up.y + 4.0}, Anchor::end, label, kSmallText);
  }
  drawing.marks.emplace_back(Rect{{field.left, field.top}, field.side, field.side, std::nullopt, kFrame});
  drawing.marks.emplace_back(Line{field.at(0.0, 0.0), field.at(1.0, 1.0), {Ink::ink, 1.4, Dash::dashed}});
}

void add_series(Drawing& drawing, const Field& field, const Reliability& reliability, std::size_t index, double aside) {
  const Stroke bar = {series_ink(index), 1.6, Dash::solid};
  for (const ReliabilityBin& bin : reliability.bins) {
    Point low = field.at(bin.mean_chance, bin.share_interval.low);
    Point high = field.at(bin.mean_chance, bin.share_interval.high);
    low.x += aside;
    high.x += aside;
    drawing.marks.emplace_back(Line{low, high, bar});
    for (const Point& end : {low, high}) {
      drawing.marks.emplace_back(Line{{end.x - 3.0, end.y}, {end.x + 3.0, end.y}, bar});
    }
  }
  for (const ReliabilityBin& bin : reliability.bins) {
    const Point middle = field.at(bin.mean_chance, bin.share_good);
    add_symbol(drawing, {middle.x + aside, middle.y}, index);
  }
}

/// Bars below the field, in line with its bins. Gives the lower edge.
double add_counts(Drawing& drawing, const Field& field, double top, const Reliability& reliability) {
  std::size_t most = 0;
  double widest = 0.0;
  for (const ReliabilityBin& bin : reliability.bins) {
    most = std::max(most, bin.count);
    widest = std::max(widest, guessed_width(std::to_string(bin.count), kCountSize, Weight::regular));
  }
  const double step = kLineStep * kCountSize;
  // Numbers that are wider than their bin take turns on several lines below the bars.
  const int lines = 1 + static_cast<int>((widest + 2.0) / (field.side / 10.0));
  const double base = top + kCountBars;
  for (const ReliabilityBin& bin : reliability.bins) {
    const double left = field.left + bin.from * field.side;
    const double right = field.left + bin.to * field.side;
    const double height = kCountBars * static_cast<double>(bin.count) / static_cast<double>(most);
    drawing.marks.emplace_back(
        Rect{{left + 1.5, base - height}, right - left - 3.0, height, series_ink(0), std::nullopt});
    const int line = 1 + static_cast<int>(std::lround(bin.from * 10.0)) % lines;
    add_text(drawing, {(left + right) / 2.0, base + step * line}, Anchor::middle, std::to_string(bin.count),
             {kCountSize, Ink::ink, Weight::regular});
  }
  drawing.marks.emplace_back(Line{{field.left, base}, {field.left + field.side, base}, kFrame});
  return base + step * lines + 4.0;
}

std::vector<LegendEntry> legend_of(std::span<const ReliabilitySeries> series, const ReliabilityWords& words) {
  std::vector<LegendEntry> out;
  for (const ReliabilitySeries& one : series) out.push_back({LegendMark::symbol, out.size(), one.name});
  out.push_back({LegendMark::dashed_line, 0, words.diagonal});
  return out;
}

double add_notes(Drawing& drawing, Point top, const std::vector<std::string>& notes, double width) {
  for (const std::string& note : notes) top.y = add_lines(drawing, top, note, kBodyText, width) + 6.0;
  return top.y;
}

}  // namespace

Drawing reliability_chart(std::span<const ReliabilitySeries> series, const ReliabilityWords& words, double width) {
  FETTLE_ASSERT(!series.empty() && series.size() <= 3, "a chart of no series, or of too many");
  FETTLE_ASSERT(width >= 300.0, "a chart too narrow to be read");
  Drawing drawing{DrawingUnit::pixel, width, 0.0, words.title, words.description, {}};
  const double text_width = width - 2.0 * kChartMargin;
  double y = add_lines(drawing, {kChartMargin, kChartMargin - 4.0}, words.title, kTitleText, text_width) + 6.0;
  y = add_legend(drawing, {kChartMargin, y}, legend_of(series, words), text_width) + 10.0;

  const double left = kChartMargin + guessed_width("100" + words.percent, kSmallSize, Weight::regular) + 9.0;
  // Half of the last label stands to the right of the field.
  const double right = width - kChartMargin - (left - kChartMargin) / 2.0;
  const double side = std::min(right - left, kLargestSide);
  y = add_lines(drawing, {kChartMargin, y}, words.share_axis, kSmallText, text_width) + 8.0;
  const Field field{left, y, side};
  add_field(drawing, field, words.percent);
  for (std::size_t i = 0; i < series.size(); ++i) {
    const double aside = (static_cast<double>(i) - static_cast<double>(series.size() - 1) / 2.0) * 7.0;
    add_series(drawing, field, series[i].reliability, i, aside);
  }
  y = add_lines(drawing, {left, field.bottom() + 21.0}, words.chance_axis, kSmallText, width - left - kChartMargin);
  y = add_lines(drawing, {left, y + 8.0}, words.counts, kSmallText, width - left - kChartMargin) + 6.0;
  y = add_counts(drawing, field, y, series.front().reliability);
  if (width >= kSideNotesFrom) {
    const double beside = left + side + 40.0;
    y = std::max(y, add_notes(drawing, {beside, field.top - 4.0}, words.notes, width - kChartMargin - beside));
  } else {
    y = add_notes(drawing, {kChartMargin, y + 6.0}, words.notes, text_width);
  }
  drawing.height = y + kChartMargin;
  return drawing;
}

}  // namespace fettle
