#include "pictures/figure_plan.h"

#include <algorithm>
#include <charconv>
#include <initializer_list>
#include <string_view>

#include "drawing/circle_point.h"
#include "pictures/place_marks.h"

namespace fettle {
namespace {

constexpr double kMiddle = kPlanWidth / 2.0;
/// Below it stands the name of what is read at the station.
constexpr double kFloor = 102.0;
constexpr double kFigureLeft = 14.0;
constexpr double kFigureRight = kPlanWidth - 14.0;
constexpr double kFigureTop = 12.0;

/// "clock-3" gives 3; nothing: no such name.
std::optional<int> number_after(std::string_view id, std::string_view start) {
  if (id.substr(0, start.size()) != start) return std::nullopt;
  int out = 0;
  const char* end = id.data() + id.size();
  const auto [stop, error] = std::from_chars(id.data() + start.size(), end, out);
  return error == std::errc() && stop == end ? std::optional(out) : std::nullopt;
}

bool all_stations(const Layout& layout, std::string_view start) {
  return std::all_of(layout.stations.begin(), layout.stations.end(), [&](const Station& each) { return number_after(each.id, start).has_value(); });
}

bool one_of(const std::string& kind, std::initializer_list<std::string_view> kinds) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); }

/// The `i`-th of `n` places between two edges, none on an edge.
double spread_evenly(double from, double to, std::size_t i, std::size_t n) { return from + (to - from) * (static_cast<double>(i) + 0.5) / static_cast<double>(n); }

class FigureSketch {
 public:
  FigureSketch(const PartToDraw& part, FigureSeen seen, Language language) : part_(part), layout_(part.layout), seen_(seen), language_(language) {}

  [[nodiscard]] Drawing draw() && {
    outline();
    add_places(
        sketch_, part_, [](std::size_t, std::size_t) {}, [&](std::size_t s, std::size_t d) { lit(s, d); });
    return std::move(sketch_).done(say("pictures.plan.title", {verbatim("part", part_.name)}, language_), places_description(part_, language_));
  }

 private:
  void outline() {
    switch (seen_) {
      case FigureSeen::clock: return clock_outline();
      case FigureSeen::face_lines: return face_lines_outline();
      case FigureSeen::face_points: return face_points_outline();
      case FigureSeen::shaft: return shaft_outline();
      case FigureSeen::tunnel: return tunnel_outline();
      case FigureSeen::spring: return spring_outline();
      case FigureSeen::gap: return gap_outline();
      case FigureSeen::depth: return depth_outline();
      case FigureSeen::thickness: return thickness_outline();
      case FigureSeen::pressure: return pressure_outline();
    }
  }

  void lit(std::size_t s, std::size_t d) {
    switch (seen_) {
      case FigureSeen::clock: clock_lit(s); break;
      case FigureSeen::face_lines: line_on_face(s, Ink::here, 3.0); break;
      case FigureSeen::face_points: point_lit(point_on_face(s, d)); break;
      case FigureSeen::shaft: dial_on({along(s), kShaftTop}); break;
      case FigureSeen::tunnel: point_lit({along(s), kShaftBottom}); break;
      case FigureSeen::spring: spring_lit(s, d); break;
      case FigureSeen::gap: gap_lit(); break;
      case FigureSeen::depth: depth_lit(); break;
      case FigureSeen::thickness: thickness_lit(); break;
      case FigureSeen::pressure: pressure_lit(); break;
    }
    if (layout_.directions.size() < 2 || seen_ == FigureSeen::face_points) return;
    Type name = kLitName;
    name.anchor = Anchor::middle;
    sketch_.text_within({kMiddle, kPlanHeight - 5.0}, direction_words(layout_.directions[d], language_), name, kPlanWidth - 4.0);
  }

  void point_lit(Point at) {
    sketch_.circle(at, 6.5, Ink::paper, Ink::here, 2.0);
    sketch_.circle(at, 2.5, Ink::here);
  }

  // Round the clock, as one stands before it.

  static constexpr Point kClock = {kMiddle, 59.0};
  static constexpr double kClockRadius = 32.0;

  [[nodiscard]] std::optional<Point> on_clock(std::size_t s) const {
    const auto hour = number_after(layout_.stations[s].id, "clock-");
    if (!hour) return std::nullopt;
    return circle_point(kClock, kClockRadius, 30.0 * *hour);
  }
  void clock_outline() {
    sketch_.circle(kClock, kClockRadius + 9.0, std::nullopt, Ink::ink, 1.6);
    sketch_.circle(kClock, kClockRadius - 9.0, std::nullopt, Ink::ink, 1.2);
    sketch_.circle(kClock, 2.0, Ink::faint);
    for (std::size_t s = 0; s < layout_.stations.size(); ++s) {
      const auto at = on_clock(s);
      if (!at) continue;
      sketch_.circle(*at, 3.5, std::nullopt, Ink::faint, 1.2);
      const int hour = *number_after(layout_.stations[s].id, "clock-");
      const Point name = circle_point(kClock, kClockRadius + 17.0, 30.0 * hour);
      sketch_.text({name.x, name.y + 4.0}, std::to_string(hour), {kPictureText, Ink::ink, Anchor::middle});
    }
  }
  void clock_lit(std::size_t s) {
    if (const auto at = on_clock(s)) {
      point_lit(*at);
    } else {  // a radius, from the middle to where the dial stands
      sketch_.arrow(kClock, {kClock.x + kClockRadius, kClock.y}, Ink::here, 2.5);
    }
  }

  // A face from above.

  void face_outline() { sketch_.rect({kFigureLeft, kFigureTop}, kFigureRight - kFigureLeft, kFloor - kFigureTop - 8.0, std::nullopt, Ink::ink, 1.8); }
  void line_on_face(std::size_t station, Ink ink, double width) {
    const double low = kFloor - 8.0;
    std::size_t i = 0;
    std::size_t n = 0;
    for (std::size_t s = 0; s < layout_.stations.size(); ++s) {
      if (layout_.stations[s].group != layout_.stations[station].group) continue;
      if (s < station) ++i;
      ++n;
    }
    const Dash dash = ink == Ink::faint ? Dash::dashed : Dash::solid;
    if (layout_.stations[station].group == "cross") {
      const double x = spread_evenly(kFigureLeft, kFigureRight, i, n);
      sketch_.line({x, kFigureTop}, {x, low}, ink, width, dash);
    } else if (layout_.stations[station].group == "diagonal") {
      sketch_.line({i % 2 == 0 ? kFigureLeft : kFigureRight, kFigureTop}, {i % 2 == 0 ? kFigureRight : kFigureLeft, low}, ink, width, dash);
    } else {
      const double y = spread_evenly(kFigureTop, low, i, n);
      sketch_.line({kFigureLeft, y}, {kFigureRight, y}, ink, width, dash);
    }
  }
  void face_lines_outline() {
    face_outline();
    for (std::size_t s = 0; s < layout_.stations.size(); ++s) line_on_face(s, Ink::faint, 1.0);
  }
  /// Stations from the front (above) to the rear, directions from left to right.
  [[nodiscard]] Point point_on_face(std::size_t s, std::size_t d) const {
    return {spread_evenly(kFigureLeft, kFigureRight, d, layout_.directions.size()), spread_evenly(kFigureTop, kFloor - 8.0, s, layout_.stations.size())};
  }
  void face_points_outline() {
    face_outline();
    for (std::size_t s = 0; s < layout_.stations.size(); ++s) {
      for (std::size_t d = 0; d < layout_.directions.size(); ++d) sketch_.circle(point_on_face(s, d), 3.0, std::nullopt, Ink::faint, 1.2);
    }
  }

  // A shaft on its two ends, a dial on each journal in turn.

  static constexpr double kShaftTop = 60.0;
  static constexpr double kShaftBottom = 76.0;

  [[nodiscard]] double along(std::size_t s) const { return spread_evenly(kFigureLeft, kFigureRight, s, layout_.stations.size()); }
  void shaft_outline() {
    sketch_.rect({kFigureLeft - 6.0, kShaftTop + 4.0}, kFigureRight - kFigureLeft + 12.0, kShaftBottom - kShaftTop - 8.0, std::nullopt, Ink::faint);
    const double half = std::min(10.0, (kFigureRight - kFigureLeft) / static_cast<double>(layout_.stations.size()) / 3.0);
    for (std::size_t s = 0; s < layout_.stations.size(); ++s) {
      sketch_.rect({along(s) - half, kShaftTop}, 2.0 * half, kShaftBottom - kShaftTop, Ink::paper, Ink::ink, 1.4);
    }
    for (const double x : {along(0), along(layout_.stations.size() - 1)}) {  // what it rests on
      sketch_.open_line({{x - 11.0, kShaftBottom - 3.0}, {x, kShaftBottom + 9.0}, {x + 11.0, kShaftBottom - 3.0}}, Ink::ink, 1.4);
      sketch_.line({x, kShaftBottom + 9.0}, {x, kFloor - 4.0}, Ink::ink, 1.4);
    }
    sketch_.line({kFigureLeft - 8.0, kFloor - 4.0}, {kFigureRight + 8.0, kFloor - 4.0}, Ink::ink, 1.4);
  }
  /// The bores of the tunnel cut open, a straight bar through them.
  void tunnel_outline() {
    const double half = std::min(9.0, (kFigureRight - kFigureLeft) / static_cast<double>(layout_.stations.size()) / 3.0);
    for (std::size_t s = 0; s < layout_.stations.size(); ++s) {
      for (const double y : {kShaftTop - 26.0, kShaftBottom}) {
        sketch_.hatch({along(s) - half, y}, 2.0 * half, 26.0, Ink::faint, 5.0);
        sketch_.rect({along(s) - half, y}, 2.0 * half, 26.0, std::nullopt, Ink::ink, 1.2);
      }
    }
    sketch_.rect({kFigureLeft - 8.0, kShaftTop + 5.0}, kFigureRight - kFigureLeft + 16.0, 6.0, std::nullopt, Ink::faint);
  }
  /// A dial whose stem touches `at` from above.
  void dial_on(Point at) {
    constexpr double kHeight = 22.0;
    sketch_.line({at.x, at.y - kHeight + 8.0}, at, Ink::here, 2.5);
    sketch_.circle({at.x, at.y - kHeight}, 9.0, Ink::paper, Ink::here, 2.0);
    sketch_.line({at.x, at.y - kHeight}, {at.x + 4.0, at.y - kHeight - 5.0}, Ink::here, 1.5);
  }

  // A spring between two plates.

  void spring_outline() {
    constexpr double kHigh = 22.0;
    constexpr double kLow = 96.0;
    constexpr int kTurns = 6;
    constexpr double kHalf = 24.0;
    std::vector<Point> wire;
    for (int i = 0; i <= 2 * kTurns; ++i) {
      wire.push_back({kMiddle + (i % 2 == 0 ? -kHalf : kHalf), kHigh + (kLow - kHigh) * static_cast<double>(i) / (2.0 * kTurns)});
    }
    sketch_.open_line(wire, Ink::ink, 2.4);
    for (const double y : {kHigh, kLow}) sketch_.line({kMiddle - 40.0, y}, {kMiddle + 40.0, y}, Ink::ink, 1.8);
  }
  void spring_lit(std::size_t s, std::size_t d) {
    if (layout_.quantity(layout_.cell(s, d)) == Dimension::force) {
      sketch_.arrow({kMiddle, 2.0}, {kMiddle, 20.0}, Ink::here, 3.0, 9.0);
      sketch_.arrow({kMiddle, 116.0}, {kMiddle, 98.0}, Ink::here, 3.0, 9.0);
    } else if (layout_.stations[s].id == "out-of-square") {
      sketch_.line({kMiddle + 32.0, 22.0}, {kMiddle + 32.0, 96.0}, Ink::here, 2.0);
      sketch_.arrow({kMiddle + 32.0, 27.0}, {kMiddle + 25.0, 27.0}, Ink::here, 2.0);
    } else {
      sketch_.arrow({kMiddle + 46.0, 59.0}, {kMiddle + 46.0, 22.0}, Ink::here, 2.0);
      sketch_.arrow({kMiddle + 46.0, 59.0}, {kMiddle + 46.0, 96.0}, Ink::here, 2.0);
    }
  }

  // Two faces and what goes between them; a step below a face; a plate between two contacts.

  void faces(double high, double low) {
    sketch_.hatch({kFigureLeft + 26.0, high - 26.0}, 92.0, 26.0, Ink::faint, 6.0);
    sketch_.line({kFigureLeft + 26.0, high}, {kFigureRight, high}, Ink::ink, 1.8);
    sketch_.hatch({kFigureLeft + 26.0, low}, 92.0, 26.0, Ink::faint, 6.0);
    sketch_.line({kFigureLeft + 26.0, low}, {kFigureRight, low}, Ink::ink, 1.8);
  }
  void gap_outline() { faces(50.0, 62.0); }
  void gap_lit() {
    sketch_.rect({2.0, 52.0}, 86.0, 8.0, Ink::paper, Ink::here, 2.0);  // a leaf
    sketch_.circle({9.0, 56.0}, 2.0, Ink::here);
  }
  void depth_outline() {
    for (const double x : {kFigureLeft, kFigureRight - 34.0}) sketch_.hatch({x, 46.0}, 34.0, 50.0, Ink::faint, 6.0);
    sketch_.hatch({kFigureLeft + 34.0, 74.0}, kFigureRight - kFigureLeft - 68.0, 22.0, Ink::faint, 6.0);
    sketch_.open_line({{kFigureLeft, 46.0}, {kFigureLeft + 34.0, 46.0}, {kFigureLeft + 34.0, 74.0}, {kFigureRight - 34.0, 74.0}, {kFigureRight - 34.0, 46.0}, {kFigureRight, 46.0}}, Ink::ink, 1.8);
  }
  void depth_lit() {
    sketch_.rect({kFigureLeft + 8.0, 38.0}, kFigureRight - kFigureLeft - 16.0, 8.0, Ink::paper, Ink::here, 2.0);  // the bridge
    sketch_.line({kMiddle, 26.0}, {kMiddle, 74.0}, Ink::here, 2.5);
    sketch_.circle({kMiddle, 18.0}, 9.0, Ink::paper, Ink::here, 2.0);
  }
  void thickness_outline() {
    sketch_.hatch({kMiddle - 11.0, kFigureTop}, 22.0, kFloor - kFigureTop - 6.0, Ink::faint, 6.0);
    sketch_.rect({kMiddle - 11.0, kFigureTop}, 22.0, kFloor - kFigureTop - 6.0, std::nullopt, Ink::ink, 1.8);
  }
  void thickness_lit() {
    sketch_.rect({kMiddle - 43.0, 50.0}, 32.0, 12.0, Ink::paper, Ink::here, 2.0);
    sketch_.rect({kMiddle + 11.0, 50.0}, 32.0, 12.0, Ink::paper, Ink::here, 2.0);
  }

  // The face of a pressure gauge, without figures: what it says is what is typed.

  void pressure_outline() {
    sketch_.circle({kMiddle, 46.0}, 34.0, std::nullopt, Ink::ink, 1.8);
    sketch_.arc({kMiddle, 46.0}, 26.0, 225.0, 495.0, Ink::faint, 1.2);
    sketch_.rect({kMiddle - 6.0, 80.0}, 12.0, 22.0, std::nullopt, Ink::ink, 1.4);
  }
  void pressure_lit() {
    sketch_.line({kMiddle, 46.0}, circle_point({kMiddle, 46.0}, 26.0, 30.0), Ink::here, 3.0);
    sketch_.circle({kMiddle, 46.0}, 4.0, Ink::here);
    sketch_.arrow({kMiddle, 118.0}, {kMiddle, 104.0}, Ink::here, 2.5);
  }

  const PartToDraw& part_;
  const Layout& layout_;
  FigureSeen seen_;
  Language language_;
  Sketch sketch_{kPlanWidth, kPlanHeight};
};

bool is_pressure(const Layout& layout) {
  for (std::size_t cell = 0; cell < layout.cells(); ++cell) {
    if (layout.quantity(cell) != Dimension::pressure) return false;
  }
  return layout.cells() > 0;
}

}  // namespace

std::optional<FigureSeen> figure_seen(const PartToDraw& part) {
  const Layout& layout = part.layout;
  if (layout.stations.empty() || part.feature != Feature::figure) return std::nullopt;
  const auto clocks = std::count_if(layout.stations.begin(), layout.stations.end(), [](const Station& each) { return number_after(each.id, "clock-").has_value(); });
  if (clocks >= 3) return FigureSeen::clock;
  const bool grouped = std::all_of(layout.stations.begin(), layout.stations.end(), [](const Station& each) {
    return each.group == "long" || each.group == "cross" || each.group == "diagonal";
  });
  if (grouped) return FigureSeen::face_lines;
  if (is_pressure(layout)) return FigureSeen::pressure;
  if (part.kind == "face-heights") return FigureSeen::face_points;
  if (part.kind == "main-tunnel") return FigureSeen::tunnel;
  if (all_stations(layout, "main-") || all_stations(layout, "cam-")) return FigureSeen::shaft;
  if (one_of(part.kind, {"valve-spring", "spring-height"})) return FigureSeen::spring;
  if (one_of(part.kind, {"liner-counterbore", "flywheel-step", "deck-clearance"})) return FigureSeen::depth;
  if (one_of(part.kind, {"liner-flange", "thrust-bearing-width", "friction-plate", "head-thickness", "bearing-shell"})) return FigureSeen::thickness;
  if (one_of(part.kind, {"ring-side-gap", "valve-lash", "oil-pump-gears", "oil-pump-rotors", "reed-valve"})) return FigureSeen::gap;
  return std::nullopt;
}

Drawing figure_plan(const PartToDraw& part, FigureSeen seen, Language language) { return FigureSketch(part, seen, language).draw(); }

}  // namespace fettle
