#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace fettle {

/// What a drawing's lengths are counted in. A pixel is one at the width that the drawing was laid out for.
enum class DrawingUnit { pixel, millimetre };

/// Named by use, not by colour. `ink` to `third` may write text and draw marks; `wash` is for areas and guide lines and
/// never for text; `paper` is what everything lies on, and may write text on a filled mark. `here`: where the hand is now,
/// and nothing else. `within`, `close`, `beyond`: what was judged; never without a shape or a word that says the same.
enum class Ink { ink, faint, accent, second, third, wash, paper, here, within, close, beyond };
enum class Dash { solid, dashed, dotted };
enum class Anchor { start, middle, end };
enum class Weight { regular, bold };

/// From the left and the top edge, in the unit of the drawing.
struct Point {
  double x;
  double y;
};

struct Stroke {
  Ink ink;
  double width;
  Dash dash;
};

struct Line {
  Point from;
  Point to;
  Stroke stroke;
};

/// Open: the last point is not joined to the first. Two points or more.
struct Polyline {
  std::vector<Point> points;
  Stroke stroke;
};

/// Closed. Three points or more.
struct Polygon {
  std::vector<Point> points;
  std::optional<Ink> fill;
  std::optional<Stroke> stroke;
};

struct Rect {
  Point corner;  // upper left
  double width;
  double height;
  std::optional<Ink> fill;
  std::optional<Stroke> stroke;
};

struct Circle {
  Point centre;
  double radius;
  std::optional<Ink> fill;
  std::optional<Stroke> stroke;
};

/// Part of a circle. Degrees count clockwise from straight up; to below from: anticlockwise. Less than a full turn.
struct Arc {
  Point centre;
  double radius;
  double from_degrees;
  double to_degrees;
  Stroke stroke;
};

struct PathMove {
  Point to;
};
struct PathLine {
  Point to;
};
struct PathCurve {
  Point control_one;
  Point control_two;
  Point to;
};
/// A line to where the arc begins, then the arc.
struct PathArc {
  Point centre;
  double radius;
  double from_degrees;
  double to_degrees;
};
struct PathClose {};
using PathStep = std::variant<PathMove, PathLine, PathCurve, PathArc, PathClose>;

/// Begins with a PathMove.
struct Path {
  std::vector<PathStep> steps;
  std::optional<Ink> fill;
  std::optional<Stroke> stroke;
};

/// One line of text, UTF-8. `at` is on the base line, at the start, middle or end as `anchor` says.
struct Text {
  Point at;
  std::string words;
  double size;  // em
  Ink ink;
  Anchor anchor;
  Weight weight;
};

/// Text cut into lines not wider than `width`, at its spaces, and inside a word that alone is wider. `anchor` says where in
/// the box the lines stand.
struct TextBox {
  Point corner;  // upper left
  double width;
  std::string words;
  double size;
  Ink ink;
  Anchor anchor;
  Weight weight;
};

/// The marks up to the matching GroupEnd belong together under a name, for what shows the drawing. Groups may nest.
struct GroupStart {
  std::string kind;                  // words of small letters, digits and "-" with a space between
  std::optional<std::string> place;  // whose marks these are
  bool page_only;                    // for a page that shows and hides it; left out everywhere else
};
struct GroupEnd {};

using DrawnMark =
    std::variant<Line, Polyline, Polygon, Rect, Circle, Text, Arc, Path, TextBox, GroupStart, GroupEnd>;

/// A display list: later marks lie over earlier ones. The title and the description are for those who cannot see it,
/// and are not drawn.
struct Drawing {
  DrawingUnit unit;
  double width;
  double height;
  std::string title;
  std::string description;
  std::vector<DrawnMark> marks;
};

}  // namespace fettle
