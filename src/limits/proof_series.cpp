#include <algorithm>
#include <array>
#include <map>

#include "limits/proof_desk.h"

namespace fettle {
namespace {

/// What a figure does where the step goes up by one: a bore grows by it, a journal shrinks, a shell grows by half, a clearance stays.
const std::array kSlopes{Ratio(1), Ratio(-1), Ratio::of(1, 2), Ratio::of(-1, 2), Ratio(0)};
constexpr std::array kSeriesFields{SheetField::fresh_from, SheetField::fresh_to, SheetField::wear};

/// One figure of one row of a series, in one family of units.
struct Point {
  const SheetRow* row;
  SheetField field;
  Ratio step;
  Ratio value;
  Ratio room;  ///< that rounding may take
};

struct Line {
  Ratio slope;
  Ratio base;
  std::vector<const Point*> off;
};

Ratio step_of(const SheetRow& row, UnitFamily family) {
  const TypedQuantity* step = row.step.preferring(family);
  return step == nullptr ? Ratio{} : step->quantity.in_base();
}

std::vector<Point> points_of(const std::vector<const SheetRow*>& rows, SheetField field, UnitFamily family) {
  std::vector<Point> out;
  for (const SheetRow* row : rows) {
    const auto& each = figure(*row, field).in(family);
    if (!each || each->quantity.dimension() != Dimension::length) continue;
    // Where the figures were converted from the other unit, both of a pair are rounded.
    const bool converted = figure(*row, field).in_both() || (!row->step.empty() && !row->step.in(family));
    const Ratio half = half_a_step(*each);
    out.push_back({row, field, step_of(*row, family), each->quantity.in_base(), converted ? half + half : half});
  }
  return out;
}

/// The line with this slope on which most of the points lie.
Line line_of(const std::vector<Point>& points, const Ratio& slope) {
  constexpr std::size_t kStarts = 24;  // of a long series: most of its points lie on the line, so that one of these does
  Line best{slope, {}, {}};
  bool first = true;
  for (std::size_t i = 0; i < points.size(); i += 1 + points.size() / kStarts) {
    const Point& start = points[i];
    Line line{slope, start.value - slope * start.step, {}};
    for (const Point& each : points) {
      if (absolute(line.base + slope * each.step - each.value) > each.room) line.off.push_back(&each);
    }
    if (first || line.off.size() < best.off.size()) best = std::move(line);
    first = false;
  }
  return best;
}

/// Nothing where no slope holds most of the points.
std::optional<Line> best_line(const std::vector<Point>& points) {
  std::optional<Line> best;
  for (const Ratio& slope : kSlopes) {
    Line line = line_of(points, slope);
    if (!best || line.off.size() < best->off.size()) best = std::move(line);
  }
  if (!best || best->off.size() * 2 >= points.size()) return std::nullopt;
  return best;
}

const TypedQuantity& printed_at(const Point& point, UnitFamily family) { return *figure(*point.row, point.field).in(family); }

/// All figures of a row lie off by the same: then its step is the likelier slip.
bool step_is_off(const std::vector<std::pair<const Point*, Line>>& off, const SheetRow& row, std::size_t fields) {
  std::vector<Ratio> by;
  for (const auto& [point, line] : off) {
    if (point->row == &row) by.push_back(point->value - line.base - line.slope * point->step);
  }
  return fields > 1 && by.size() == fields && std::all_of(by.begin(), by.end(), [&](const Ratio& each) { return each == by.front(); }) && !row.step.empty();
}

/// More than rounding: by the unit in which nothing was converted, where there is one.
void tell(ProofDesk& desk, const std::vector<const SheetRow*>& rows, UnitFamily family) {
  std::vector<std::vector<Point>> all;
  for (const SheetField field : kSeriesFields) all.push_back(points_of(rows, field, family));
  std::vector<std::pair<const Point*, Line>> off;
  std::map<const SheetRow*, std::size_t> fields;
  for (const auto& points : all) {
    if (points.size() < 3) continue;
    for (const Point& each : points) ++fields[each.row];
    const auto line = best_line(points);
    if (!line) continue;
    for (const Point* each : line->off) off.emplace_back(each, *line);
  }
  std::vector<const SheetRow*> told;
  for (const auto& [point, line] : off) {
    const FigureSpot spot{point->row->id, point->field};
    if (desk.is_asked(spot) || std::find(told.begin(), told.end(), point->row) != told.end()) continue;
    // As fine as any of the series is printed.
    TypedQuantity printed = printed_at(*point, family);
    for (const SheetRow* row : rows) {
      const auto& other = figure(*row, point->field).in(family);
      if (other) printed.decimals = std::max(printed.decimals, other->decimals);
    }
    const std::string right = shown_like(line.base + line.slope * point->step, printed);
    const TypedQuantity* step = point->row->step.preferring(family);
    ProofFinding finding{"series", HowSure::certain, {spot}, {}, {}, {}};
    const std::string base = shown_like(line.base, printed);
    const std::string step_shown = step ? shown_like(step->quantity.in_base(), *step) : "0";
    if (step_is_off(off, *point->row, fields[point->row]) && line.slope.sign() != 0) {
      TypedQuantity like = *step;
      like.decimals = std::max(like.decimals, printed.decimals);
      const std::string meant = shown_like((point->value - line.base) / line.slope, like);
      finding.spots = {{point->row->id, SheetField::step}, spot};
      finding.arithmetic = {"proof.series.step", {verbatim("what", point->row->what), figures("printed", step_shown), figures("base", base), figures("figure", shown_like(point->value, printed)), figures("right", meant)}};
      finding.likeliest = {{{point->row->id, SheetField::step}, meant}};
      told.push_back(point->row);
    } else {
      finding.arithmetic = {"proof.series", {verbatim("what", point->row->what), figures("printed", shown_like(point->value, printed)), figures("base", base), figures("step", step_shown), figures("right", right)}};
      finding.likeliest = {{spot, right}};
    }
    desk.ask(std::move(finding));
  }
}

}  // namespace

void find_series(ProofDesk& desk) {
  std::map<std::vector<std::string>, std::vector<const SheetRow*>> series;
  for (const SheetRow& row : desk.sheet.rows) series[{row.what, row.kind, row.definition, row.grade, row.choose}].push_back(&row);
  for (const auto& [name, rows] : series) {
    const bool steps = std::count_if(rows.begin(), rows.end(), [](const SheetRow* each) { return !each->step.empty(); }) >= 2;
    if (!steps) continue;
    // First where the steps are printed: there nothing was converted.
    const bool inch_first = std::any_of(rows.begin(), rows.end(), [](const SheetRow* each) { return each->step.inch && !each->step.metric; });
    tell(desk, rows, inch_first ? UnitFamily::inch : UnitFamily::metric);
    tell(desk, rows, inch_first ? UnitFamily::metric : UnitFamily::inch);
  }
}

}  // namespace fettle
