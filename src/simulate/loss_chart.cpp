#include "simulate/loss_chart.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "base/assertion.h"
#include "drawing/text_width.h"
#include "numeric/normal.h"
#include "simulate/chart_parts.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr double kLane = 13.0;
constexpr double kRowGap = 6.0;
constexpr double kLabelColumnFrom = 560.0;
constexpr double kAxisMost = 2.5;
constexpr double kAxisGrain = 0.2;

struct RatioAxis {
  double low;
  double high;
  double left;
  double right;

  [[nodiscard]] double x(double ratio) const { return left + (ratio - low) / (high - low) * (right - left); }
  [[nodiscard]] double held(double ratio) const { return std::clamp(ratio, low, high); }
};

double half_width(const Scattered& ratio) { return normal_quantile(0.975) * ratio.standard_error; }

/// Wide enough for all marks but those beyond its end, their intervals and 1, on whole grains.
RatioAxis axis_of(const std::vector<LossRow>& rows, double left, double right) {
  double low = 1.0 - kAxisGrain;
  double high = 1.0 + kAxisGrain;
  for (const LossRow& row : rows) {
    if (row.bayes) low = std::min(low, *row.bayes - 0.02);
    for (const LossMark& mark : row.marks) {
      if (mark.ratio.value > kAxisMost) continue;
      low = std::min(low, mark.ratio.value - half_width(mark.ratio));
      high = std::max(high, mark.ratio.value + half_width(mark.ratio));
    }
  }
  return {std::max(0.0, kAxisGrain * std::floor(low / kAxisGrain)),
          std::min(kAxisMost, kAxisGrain * std::ceil(high / kAxisGrain)), left, right};
}

std::string print_ratio(double ratio, int decimals, const std::string& decimal_mark) {
  std::string text = print_fixed(ratio, decimals);
  const std::size_t point = text.find('.');
  if (point != std::string::npos) text.replace(point, 1, decimal_mark);
  return text;
}

/// Whole multiples of the finest step whose labels have room.
std::vector<double> ticks_of(const RatioAxis& axis) {
  double step = 1.0;
  for (const double finer : {0.5, 0.2, 0.1}) {
    if (axis.x(axis.low + finer) - axis.left >= 38.0) step = finer;
  }
  std::vector<double> out;
  for (int i = static_cast<int>(std::ceil(axis.low / step - 1e-9)); i * step <= axis.high + 1e-9; ++i) {
    out.push_back(i * step);
  }
  return out;
}

void add_tick_labels(Drawing& drawing, const RatioAxis& axis, double y, const std::string& decimal_mark) {
  for (const double tick : ticks_of(axis)) {
    add_text(drawing, {axis.x(tick), y}, Anchor::middle, print_ratio(tick, 1, decimal_mark), kSmallText);
  }
}

/// Only behind the lanes, so that no line runs through a name.
void add_guides(Drawing& drawing, const RatioAxis& axis, double top, double bottom) {
  for (const double tick : ticks_of(axis)) {
    drawing.marks.emplace_back(Line{{axis.x(tick), top}, {axis.x(tick), bottom}, kGuideLine});
  }
  drawing.marks.emplace_back(Line{{axis.x(1.0), top}, {axis.x(1.0), bottom}, {Ink::ink, 1.4, Dash::dashed}});
}

void add_beyond(Drawing& drawing, const RatioAxis& axis, double y, const LossMark& mark, const std::string& decimal_mark) {
  const Ink ink = series_ink(mark.rule);
  drawing.marks.emplace_back(
      Polygon{{{axis.right - 8.0, y - 5.0}, {axis.right, y}, {axis.right - 8.0, y + 5.0}}, ink, std::nullopt});
  add_text(drawing, {axis.right - 12.0, y + 4.0}, Anchor::end, print_ratio(mark.ratio.value, 2, decimal_mark),
           {kSmallSize, ink, Weight::regular});
}

void add_mark(Drawing& drawing, const RatioAxis& axis, double y, const LossMark& mark, const std::string& decimal_mark) {
  if (mark.ratio.value > axis.high) {
    add_beyond(drawing, axis, y, mark, decimal_mark);
    return;
  }
  const Stroke bar = {series_ink(mark.rule), 1.6, Dash::solid};
  const double low = axis.held(mark.ratio.value - half_width(mark.ratio));
  const double high = axis.held(mark.ratio.value + half_width(mark.ratio));
  drawing.marks.emplace_back(Line{{axis.x(low), y}, {axis.x(high), y}, bar});
  add_symbol(drawing, {axis.x(axis.held(mark.ratio.value)), y}, mark.rule);
}

/// The lanes of one row below `top`. Gives their lower edge.
double add_lanes(Drawing& drawing, const RatioAxis& axis, double top, const LossRow& row, const LossWords& words) {
  if (row.marks.empty()) {
    return add_lines(drawing, {axis.left, top - 2.0}, words.no_figure, kSmallText, axis.right - axis.left);
  }
  const double bottom = top + kLane * static_cast<double>(words.rules.size());
  add_guides(drawing, axis, top - 3.0, bottom + 3.0);
  if (row.bayes) {
    const double x = axis.x(axis.held(*row.bayes));
    drawing.marks.emplace_back(Line{{x, top - 3.0}, {x, bottom + 3.0}, {Ink::ink, 3.0, Dash::solid}});
  }
  for (const LossMark& mark : row.marks) {
    add_mark(drawing, axis, top + kLane * (static_cast<double>(mark.rule) + 0.5), mark, words.decimal_mark);
  }
  return bottom;
}

std::vector<LegendEntry> legend_of(const LossWords& words, bool any_bayes) {
  std::vector<LegendEntry> out;
  for (const std::string& rule : words.rules) out.push_back({LegendMark::symbol, out.size(), rule});
  if (any_bayes) out.push_back({LegendMark::tick, 0, words.bayes});
  out.push_back({LegendMark::dashed_line, 0, words.notebook});
  return out;
}

void check(const std::vector<LossRow>& rows, const LossWords& words, double width) {
  FETTLE_ASSERT(!rows.empty(), "a chart without a row");
  FETTLE_ASSERT(!words.rules.empty() && words.rules.size() <= kSymbols, "a chart of no rule, or of too many");
  FETTLE_ASSERT(width >= 300.0, "a chart too narrow to be read");
  for (const LossRow& row : rows) {
    for (const LossMark& mark : row.marks) FETTLE_ASSERT(mark.rule < words.rules.size(), "a mark of an unnamed rule");
  }
}

double label_column(const std::vector<LossRow>& rows, double width) {
  double widest = 0.0;
  for (const LossRow& row : rows) widest = std::max(widest, guessed_width(row.family, kBodySize, Weight::regular));
  return std::min(widest, 0.3 * width);
}

}  // namespace

LossRow loss_row(std::string family, const Scores& scores, std::span<const DecisionRule> rules) {
  const auto ratio = [&scores](DecisionRule rule) -> std::optional<Scattered> {
    const RuleScore* found = scores.find(rule);
    if (found == nullptr) return std::nullopt;
    return found->expected ? found->expected->to_notebook : found->raw.to_notebook;
  };
  LossRow row{std::move(family), {}, std::nullopt};
  for (std::size_t i = 0; i < rules.size(); ++i) {
    if (const std::optional<Scattered> own = ratio(rules[i])) row.marks.push_back({i, *own});
  }
  if (const std::optional<Scattered> bayes = ratio(DecisionRule::bayes)) row.bayes = bayes->value;
  return row;
}

Drawing loss_chart(const std::vector<LossRow>& rows, const LossWords& words, double width) {
  check(rows, words, width);
  Drawing drawing{DrawingUnit::pixel, width, 0.0, words.title, words.description, {}};
  const double text_width = width - 2.0 * kChartMargin;
  const bool any_bayes =
      std::any_of(rows.begin(), rows.end(), [](const LossRow& row) { return row.bayes.has_value(); });
  double y = add_lines(drawing, {kChartMargin, kChartMargin - 4.0}, words.title, kTitleText, text_width) + 6.0;
  y = add_legend(drawing, {kChartMargin, y}, legend_of(words, any_bayes), text_width) + 10.0;
  y = add_lines(drawing, {kChartMargin, y}, words.axis, kSmallText, text_width) + 22.0;

  const bool beside = width >= kLabelColumnFrom;
  const double column = beside ? label_column(rows, width) : 0.0;
  const RatioAxis axis = axis_of(rows, kChartMargin + (beside ? column + 24.0 : 12.0), width - kChartMargin - 12.0);
  add_tick_labels(drawing, axis, y - 6.0, words.decimal_mark);
  for (const LossRow& row : rows) {
    drawing.marks.emplace_back(Line{{kChartMargin, y}, {width - kChartMargin, y}, kGuideLine});
    y += kRowGap;
    const double below_label =
        add_lines(drawing, {kChartMargin, y - 2.0}, row.family, kBodyText, beside ? column : text_width);
    y = std::max(below_label, add_lanes(drawing, axis, beside ? y : below_label + 3.0, row, words)) + kRowGap;
  }
  drawing.marks.emplace_back(Line{{kChartMargin, y}, {width - kChartMargin, y}, kGuideLine});
  add_tick_labels(drawing, axis, y + 16.0, words.decimal_mark);
  y += 22.0;
  for (const std::string& note : words.notes) {
    y = add_lines(drawing, {kChartMargin, y + 4.0}, note, kBodyText, text_width);
  }
  drawing.height = y + kChartMargin;
  return drawing;
}

}  // namespace fettle
