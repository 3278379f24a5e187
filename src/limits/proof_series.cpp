#include "limits/proof_series.h"

#include <algorithm>
#include <array>
#include <functional>
#include <map>

#include "limits/proof_row_unit.h"
#include "limits/proof_series_step.h"

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
  [[nodiscard]] FigureSpot spot() const { return {row->id, field}; }
};

struct Line {
  Ratio slope;
  Ratio base;
  std::vector<const Point*> off;
  [[nodiscard]] Ratio at(const Point& point) const { return base + slope * point.step; }
};

/// Where the figures were converted from the other unit, both of a pair are rounded.
Ratio room_of(const SheetRow& row, SheetField field, UnitFamily family) {
  const bool converted = figure(row, field).in_both() || (!row.step.empty() && !row.step.in(family));
  const Ratio half = half_a_step(*figure(row, field).in(family));
  return converted ? half + half : half;
}

bool is_length_in(const SheetRow& row, SheetField field, UnitFamily family) {
  const auto& each = figure(row, field).in(family);
  return each && each->quantity.dimension() == Dimension::length;
}

bool is_single(const SheetRow& row) { return row.fresh.from == row.fresh.to; }

std::vector<Point> points_of(const ProofDesk::Rows& rows, SheetField field, UnitFamily family, StepReading reading) {
  std::vector<Point> out;
  // Single figures all of them: the second end is the first again.
  if (field == SheetField::fresh_to && std::all_of(rows.begin(), rows.end(), [](const SheetRow* each) { return is_single(*each); })) return out;
  for (const SheetRow* row : rows) {
    if (!is_length_in(*row, field, family)) continue;
    out.push_back({row, field, step_read(*row, family, reading), figure(*row, field).in(family)->quantity.in_base(), room_of(*row, field, family)});
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

/// A series with its steps read in one way.
struct SeriesRead {
  StepReading reading;
  std::vector<std::vector<Point>> points;
  std::vector<std::optional<Line>> lines;  ///< of each field; nothing where too few are printed, or no slope holds most of them
  std::size_t off = 0;
  bool lost = false;                       ///< a field that no slope holds
};

SeriesRead read_series(const ProofDesk::Rows& rows, UnitFamily family, StepReading reading) {
  SeriesRead out{reading, {}, {}};
  for (const SheetField field : kSeriesFields) out.points.push_back(points_of(rows, field, family, reading));
  for (const std::vector<Point>& points : out.points) {
    out.lines.push_back(points.size() < 3 ? std::nullopt : best_line(points));
    if (points.size() < 3) continue;
    out.lost = out.lost || !out.lines.back();
    out.off += out.lines.back() ? out.lines.back()->off.size() : points.size();
  }
  return out;
}

/// A figure that lies beside the line of its field.
struct Off {
  const Point* point;
  const Line* line;
  [[nodiscard]] Ratio by() const { return point->value - line->at(*point); }
};

class SeriesTeller {
 public:
  SeriesTeller(ProofDesk& desk, const ProofDesk::Rows& rows, UnitFamily family, const SeriesRead& read) : desk_(desk), rows_(rows), family_(family), read_(read) {}

  void run() {
    for (const SheetRow* row : rows_) {
      if (!desk_.is_asked({row->id, SheetField::step})) row_of(*row);
    }
  }

 private:
  void row_of(const SheetRow& row) {
    std::vector<Off> off;
    std::size_t figures = 0;
    for (std::size_t i = 0; i < read_.points.size(); ++i) {
      if (!read_.lines[i]) continue;
      for (const Point& each : read_.points[i]) figures += each.row == &row ? 1U : 0U;
      for (const Point* each : read_.lines[i]->off) {
        // A single figure is asked about once.
        const bool again = each->field == SheetField::fresh_to && is_single(row) && !off.empty();
        if (each->row == &row && !again && !desk_.is_asked(each->spot())) off.push_back({each, &*read_.lines[i]});
      }
    }
    if (off.empty() || in_another_unit(row, off)) return;
    const bool together = std::all_of(off.begin(), off.end(), [&](const Off& each) { return each.by() == off.front().by() && each.line->slope == off.front().line->slope; });
    if (!together) {
      for (const Off& each : off) desk_.ask(by_figures(row, {each}));
      return;
    }
    desk_.ask(off.size() < figures || row.step.empty() || off.front().line->slope.sign() == 0 ? by_figures(row, off) : by_blame(row, off));
  }

  bool in_another_unit(const SheetRow& row, const std::vector<Off>& off) {
    for (const UnitSlip& slip : unit_slips()) {
      const auto goes = [&](const Off& each) { return absolute(each.point->value * slip.factor - each.line->at(*each.point)) <= each.point->room * slip.factor + each.point->room; };
      if (is_point_slip_only(row, family_, slip) || !std::all_of(off.begin(), off.end(), goes)) continue;
      RowInUnit meant = row_in_unit(row, family_, slip);
      const bool all = std::all_of(off.begin(), off.end(), [&](const Off& each) { return std::find(meant.changed.begin(), meant.changed.end(), each.point->field) != meant.changed.end(); });
      if (!all || off.size() < printed_fields(row, family_).size() - (row.wear.empty() ? 0U : 1U)) continue;
      desk_.ask(row_unit_finding("series", HowSure::certain, row, family_, meant, slip, {"proof.row_unit.series", {}}));
      return true;
    }
    return false;
  }

  /// As fine as any of the series is printed.
  [[nodiscard]] TypedQuantity as_fine(const Point& point) const {
    TypedQuantity out = *figure(*point.row, point.field).in(family_);
    for (const SheetRow* row : rows_) {
      const auto& other = figure(*row, point.field).in(family_);
      if (other) out.decimals = std::max(out.decimals, other->decimals);
    }
    return out;
  }

  /// "62.942…62.955 mm": what stands in these places, or would.
  [[nodiscard]] std::string together(const std::vector<Off>& off, const std::function<Ratio(const Off&)>& what) const {
    const std::string first = shown_like(what(off.front()), as_fine(*off.front().point));
    std::string out;
    for (std::size_t i = 0; i < off.size(); ++i) {
      const std::string each = shown_like(what(off[i]), as_fine(*off[i].point));
      out += (i == 0 ? "" : off[i].point->field == SheetField::wear ? " / " : " … ") + each;
    }
    return out;
  }

  [[nodiscard]] std::string step_shown(const SheetRow& row) const {
    const TypedQuantity* step = step_as_read(row, family_, read_.reading);
    return step ? shown_like(step->quantity.in_base(), *step) : "0";
  }

  ProofFinding by_figures(const SheetRow& row, const std::vector<Off>& off) const {
    ProofFinding out{"series", HowSure::certain, {}, {}, {}, {}};
    for (const Off& each : off) {
      out.spots.push_back(each.point->spot());
      out.likeliest.push_back({each.point->spot(), shown_like(each.line->at(*each.point), as_fine(*each.point))});
    }
    out.arithmetic = {"proof.series",
                      {verbatim("what", row.what), figures("printed", together(off, [](const Off& each) { return each.point->value; })), figures("base", together(off, [](const Off& each) { return each.line->base; })),
                       figures("step", step_shown(row)), figures("right", together(off, [](const Off& each) { return each.line->at(*each.point); }))}};
    return out;
  }

  /// All figures of the row lie off by the same: the step or the figures, whichever two things speak against.
  ProofFinding by_blame(const SheetRow& row, const std::vector<Off>& off) const {
    const Off& first = off.front();
    const Ratio meant = (first.point->value - first.line->base) / first.line->slope;
    const StepVotes votes = vote(meant, off);
    const TypedQuantity printed = as_fine(*first.point);
    TypedQuantity like = *step_as_read(row, family_, read_.reading);
    for (const SheetRow* each : rows_) {
      const TypedQuantity* other = step_as_read(*each, family_, read_.reading);
      if (other != nullptr && other->quantity.unit == like.quantity.unit) like.decimals = std::max(like.decimals, other->decimals);
    }
    while (like.decimals < printed.decimals && !is_exact(meant, like)) ++like.decimals;
    const Likeliest step{{row.id, SheetField::step}, shown_like(meant, like)};
    ProofFinding figures_first = by_figures(row, off);
    if (votes.figures > votes.step) return figures_first;
    if (votes.figures == votes.step) {
      figures_first.likeliest.push_back(step);
      return figures_first;
    }
    ProofFinding out{"series", HowSure::certain, {step.spot}, {}, {step}, {}};
    for (const Off& each : off) out.spots.push_back(each.point->spot());
    out.arithmetic = {"proof.series.step",
                      {verbatim("what", row.what), figures("printed", step_shown(row)), figures("base", shown_like(first.line->base, printed)), figures("figure", shown_like(first.point->value, printed)), figures("right", step.text)}};
    return out;
  }

  static bool is_exact(const Ratio& value, const TypedQuantity& like) { return with_digits(like, digits_like(value, like)).quantity.in_base() == value; }

  [[nodiscard]] StepVotes vote(const Ratio& meant, const std::vector<Off>& off) const {
    const SheetRow& row = *off.front().point->row;
    std::vector<Ratio> before;
    std::vector<Ratio> after;
    bool passed = false;
    for (const SheetRow* each : rows_) {
      if (each == &row) {
        passed = true;
        continue;
      }
      (passed ? after : before).push_back(step_read(*each, family_, read_.reading));
    }
    StepVotes out = vote_by_steps(off.front().point->step, meant, before, after, off.front().point->room);
    const TypedQuantity& step = *step_as_read(row, family_, read_.reading);
    out.step += is_one_slip(digits_of(step), meant, step) ? 1 : 0;
    out.figures += row.step.in_both() ? 1 : 0;  // the two agree, else that was asked
    out.step += figure(row, off.front().point->field).in_both() ? 1 : 0;
    out.figures += is_one_slip_in_all(off) ? 1 : 0;
    return out;
  }

  static bool is_one_slip(const std::string& digits, const Ratio& meant, const TypedQuantity& like) {
    const std::vector<Slip> slips = slips_of(digits);
    return std::any_of(slips.begin(), slips.end(), [&](const Slip& each) { return with_digits(like, each.digits).quantity.in_base() == meant; });
  }

  [[nodiscard]] bool is_one_slip_in_all(const std::vector<Off>& off) const {
    const auto printed = [&](const Off& each) -> const TypedQuantity& { return *figure(*each.point->row, each.point->field).in(family_); };
    const std::vector<Slip> slips = slips_of(digits_of(printed(off.front())));
    return std::any_of(slips.begin(), slips.end(), [&](const Slip& slip) {
      return std::all_of(off.begin(), off.end(), [&](const Off& each) {
        const std::string digits = same_slip(slip, digits_of(printed(each)));
        return !digits.empty() && with_digits(printed(each), digits).quantity.in_base() == each.line->at(*each.point);
      });
    });
  }

  ProofDesk& desk_;
  const ProofDesk::Rows& rows_;
  UnitFamily family_;
  const SeriesRead& read_;
};

/// The figures go up by inches where the steps are millimetres, or the other way round: the steps were rounded.
void tell_steps_of_other_unit(ProofDesk& desk, const ProofDesk::Rows& rows, UnitFamily family, const SeriesRead& read) {
  ProofFinding out{"series", HowSure::odd, {}, {}, {}, {}};
  const Line& line = **std::find_if(read.lines.begin(), read.lines.end(), [](const auto& each) { return each.has_value(); });
  std::string printed;
  std::string right;
  for (const SheetRow* row : rows) {
    const TypedQuantity* step = step_as_read(*row, family, read.reading);
    if (step == nullptr) continue;
    const Ratio meant = step_read(*row, family, read.reading);
    const std::string text = step_text(meant, *step);
    out.spots.push_back({row->id, SheetField::step});
    out.likeliest.push_back({out.spots.back(), text});
    printed += (printed.empty() ? "" : ", ") + shown_like(step->quantity.in_base(), *step);
    right += (right.empty() ? "" : ", ") + text;
  }
  if (desk.is_asked(out.spots.front())) return;
  const Point& first = read.points.front().empty() ? read.points[1].front() : read.points.front().front();
  out.arithmetic = {"proof.series.other_unit", {verbatim("what", rows.front()->what), figures("base", shown_like(line.base, *figure(*first.row, first.field).in(family))), figures("printed", printed), figures("right", right)}};
  desk.ask(std::move(out));
}

/// More than rounding: by the unit in which nothing was converted, where there is one.
void tell(ProofDesk& desk, const ProofDesk::Rows& rows, UnitFamily family) {
  SeriesRead read = read_series(rows, family, StepReading::own_unit);
  const bool both = std::any_of(rows.begin(), rows.end(), [](const SheetRow* each) { return each->step.in_both(); });
  if (read.off > 0 && both) {
    SeriesRead other = read_series(rows, family, StepReading::other_unit);
    if (other.off < read.off) read = std::move(other);
  }
  if (read.lost) {
    const SeriesRead rounded = read_series(rows, family, StepReading::rounded);
    if (rounded.off == 0) {
      const bool converted = std::any_of(rows.begin(), rows.end(), [](const SheetRow* each) { return each->fresh.from.in_both() || each->fresh.to.in_both(); });
      const bool made_in_steps = std::any_of(rows.begin(), rows.end(), [&](const SheetRow* each) { return each->step.in(family).has_value(); });
      // The steps were converted where the book was made in the other unit.
      const UnitFamily steps = made_in_steps ? family : other_family(family);
      if (!converted && desk.sheet.original != other_family(steps)) tell_steps_of_other_unit(desk, rows, family, rounded);
      return;
    }
  }
  SeriesTeller(desk, rows, family, read).run();
}

}  // namespace

std::optional<bool> steps_with(const SheetRow& row, const SheetRow& other, SheetField field, UnitFamily family) {
  if (!is_length_in(row, field, family) || !is_length_in(other, field, family)) return std::nullopt;
  const Ratio step = step_read(row, family, StepReading::own_unit) - step_read(other, family, StepReading::own_unit);
  if (step.sign() == 0) return std::nullopt;
  const Ratio apart = figure(row, field).in(family)->quantity.in_base() - figure(other, field).in(family)->quantity.in_base();
  const Ratio room = room_of(row, field, family) + room_of(other, field, family);
  return std::any_of(kSlopes.begin(), kSlopes.end(), [&](const Ratio& slope) { return absolute(slope * step - apart) <= room; });
}

void find_series(ProofDesk& desk) {
  for (const auto& [name, rows] : desk.all_series()) {
    const bool steps = std::count_if(rows.begin(), rows.end(), [](const SheetRow* each) { return !each->step.empty(); }) >= 2;
    if (!steps) continue;
    // First where the steps are printed: there nothing was converted.
    const bool inch_first = std::any_of(rows.begin(), rows.end(), [](const SheetRow* each) { return each->step.inch && !each->step.metric; });
    tell(desk, rows, inch_first ? UnitFamily::inch : UnitFamily::metric);
    tell(desk, rows, inch_first ? UnitFamily::metric : UnitFamily::inch);
  }
}

}  // namespace fettle
