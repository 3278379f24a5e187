#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/message.h"
#include "drawing/drawing.h"
#include "text/sentence.h"
#include "units/unit.h"

namespace fettle {

// What the pictures share. All lengths in pixels at the width that a phone gives them.

inline constexpr double kPictureText = 11.5;
inline constexpr double kPictureName = 13.0;

struct Type {
  double size = kPictureText;
  Ink ink = Ink::ink;
  Anchor anchor = Anchor::start;
  Weight weight = Weight::regular;
};

/// A drawing that is being made, mark by mark.
class Sketch {
 public:
  Sketch(double width, double height) : drawing_{DrawingUnit::pixel, width, height, {}, {}, {}} {}

  void line(Point from, Point to, Ink ink, double width = 1.0, Dash dash = Dash::solid);
  void open_line(std::vector<Point> points, Ink ink, double width = 1.0, Dash dash = Dash::solid);
  void area(std::vector<Point> points, std::optional<Ink> fill, std::optional<Ink> outline = std::nullopt, double width = 1.0);
  void rect(Point corner, double width, double height, std::optional<Ink> fill, std::optional<Ink> outline = std::nullopt,
            double pen = 1.0);
  void circle(Point centre, double radius, std::optional<Ink> fill, std::optional<Ink> outline = std::nullopt, double pen = 1.0);
  void arc(Point centre, double radius, double from_degrees, double to_degrees, Ink ink, double width = 1.0);
  void text(Point at, std::string words, const Type& type);
  /// Cut to the width with "…" if need be.
  void text_within(Point at, std::string_view words, const Type& type, double width);
  /// Whole or not at all: a figure that is cut would be another figure. Says whether it was written.
  [[nodiscard]] bool figure_within(Point at, std::string_view words, const Type& type, double width);
  /// Lines from `top` on, not wider than `width`. Gives the lower edge.
  [[nodiscard]] double box(Point top, double width, std::string_view words, const Type& type);
  /// The same with at most `lines` lines, the last one cut with "…" if need be.
  [[nodiscard]] double short_box(Point top, double width, std::string_view words, const Type& type, std::size_t lines);
  /// A filled triangle whose tip points to `degrees` clockwise from straight up.
  void arrow_head(Point tip, double degrees, double length, Ink ink);
  /// A line with a head at its end.
  void arrow(Point from, Point to, Ink ink, double width = 1.0, double head = 7.0);
  /// Slanted lines over an area, as cut material is drawn.
  void hatch(Point corner, double width, double height, Ink ink, double step = 6.0);

  void begin(std::string kind, std::optional<std::string> place = std::nullopt, bool page_only = false);
  void end();
  void mark(DrawnMark mark) { drawing_.marks.push_back(std::move(mark)); }

  void set_height(double height) { drawing_.height = height; }
  [[nodiscard]] double width() const { return drawing_.width; }
  [[nodiscard]] Drawing done(std::string title, std::string description) &&;

 private:
  Drawing drawing_;
};

/// How wide text becomes by the guess, regular.
[[nodiscard]] double width_of(std::string_view words, const Type& type);

[[nodiscard]] std::string say(std::string key, std::vector<Argument> arguments, Language language);

/// A length in mm as a figure with its unit's usual decimals for a picture (mm 3, in 4, others as fine), decimal mark of the language,
/// true minus. Without the unit's symbol.
[[nodiscard]] std::string figure_of(double millimetres, UnitId unit, Language language);
/// The same with a sign also where it is positive; a figure that rounds to nothing has none.
[[nodiscard]] std::string signed_figure_of(double millimetres, UnitId unit, Language language);
[[nodiscard]] std::string symbol_of(UnitId unit);

/// A figure as printed elsewhere, with the language's decimal mark and a true minus.
[[nodiscard]] std::string typeset(std::string digits, Language language);

/// "top · thrust": a name in lists of a description.
[[nodiscard]] std::string sentences_joined(const std::vector<std::string>& parts, std::string_view between);

/// 1, 2 or 5 times a power of ten: the largest that is not above `value`. Needs value > 0.
[[nodiscard]] double round_step_below(double value);
/// The smallest that is not below it.
[[nodiscard]] double round_step_above(double value);

}  // namespace fettle
