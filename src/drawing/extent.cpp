#include "drawing/extent.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "drawing/circle_point.h"
#include "drawing/text_lines.h"
#include "drawing/text_width.h"

namespace fettle {
namespace {

class ExtentOf {
 public:
  void operator()(const Line& line) {
    add(line.from);
    add(line.to);
  }
  void operator()(const Polyline& line) {
    for (const Point& each : line.points) add(each);
  }
  void operator()(const Polygon& area) {
    for (const Point& each : area.points) add(each);
  }
  void operator()(const Rect& rect) {
    add(rect.corner);
    add({rect.corner.x + rect.width, rect.corner.y + rect.height});
  }
  void operator()(const Circle& circle) {
    add({circle.centre.x - circle.radius, circle.centre.y - circle.radius});
    add({circle.centre.x + circle.radius, circle.centre.y + circle.radius});
  }
  void operator()(const Text& text) {
    const double width = guessed_width(text.words, text.size, text.weight);
    const double left = text.anchor == Anchor::start ? text.at.x
                        : text.anchor == Anchor::end ? text.at.x - width
                                                     : text.at.x - width / 2.0;
    add({left, text.at.y - 0.76 * text.size});
    add({left + width, text.at.y + 0.24 * text.size});
  }
  void operator()(const TextBox& box) {
    for (const Text& line : lines_of(box)) (*this)(line);
  }
  void operator()(const Arc& arc) { add_arc(arc.centre, arc.radius, arc.from_degrees, arc.to_degrees); }
  void operator()(const Path& path) {
    for (const PathStep& step : path.steps) add_step(step);
  }
  void operator()(const GroupStart&) {}
  void operator()(const GroupEnd&) {}

  [[nodiscard]] std::optional<Extent> found() const {
    return extent_.left <= extent_.right ? std::optional(extent_) : std::nullopt;
  }

 private:
  void add(Point point) {
    extent_ = {std::min(extent_.left, point.x), std::min(extent_.top, point.y), std::max(extent_.right, point.x),
               std::max(extent_.bottom, point.y)};
  }
  void add_step(const PathStep& step) {
    if (const auto* move = std::get_if<PathMove>(&step)) add(move->to);
    if (const auto* line = std::get_if<PathLine>(&step)) add(line->to);
    if (const auto* arc = std::get_if<PathArc>(&step)) {
      add_arc(arc->centre, arc->radius, arc->from_degrees, arc->to_degrees);
    }
    if (const auto* curve = std::get_if<PathCurve>(&step)) {
      add(curve->control_one);
      add(curve->control_two);
      add(curve->to);
    }
  }
  /// The ends, and the quarters of the circle between them.
  void add_arc(Point centre, double radius, double from, double to) {
    add(circle_point(centre, radius, from));
    add(circle_point(centre, radius, to));
    const double low = std::min(from, to);
    const double high = std::max(from, to);
    for (double quarter = 90.0 * std::ceil(low / 90.0); quarter <= high; quarter += 90.0) {
      add(circle_point(centre, radius, quarter));
    }
  }

  static constexpr double kFar = std::numeric_limits<double>::max();
  Extent extent_{kFar, kFar, -kFar, -kFar};
};

}  // namespace

std::optional<Extent> extent_of(const DrawnMark& mark) {
  ExtentOf extent;
  std::visit(extent, mark);
  return extent.found();
}

bool apart(const Extent& a, const Extent& b) {
  return a.right <= b.left || b.right <= a.left || a.bottom <= b.top || b.bottom <= a.top;
}

}  // namespace fettle
