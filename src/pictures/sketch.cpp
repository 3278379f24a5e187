#include "pictures/sketch.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/assertion.h"
#include "drawing/circle_point.h"
#include "drawing/text_lines.h"
#include "drawing/text_width.h"
#include "units/length.h"
#include "units/print.h"

namespace fettle {
namespace {

std::optional<Stroke> outline_of(std::optional<Ink> ink, double width) {
  if (!ink) return std::nullopt;
  return Stroke{*ink, width, Dash::solid};
}

}  // namespace

void Sketch::line(Point from, Point to, Ink ink, double width, Dash dash) { mark(Line{from, to, {ink, width, dash}}); }

void Sketch::open_line(std::vector<Point> points, Ink ink, double width, Dash dash) {
  if (points.size() >= 2) mark(Polyline{std::move(points), {ink, width, dash}});
}

void Sketch::area(std::vector<Point> points, std::optional<Ink> fill, std::optional<Ink> outline, double width) {
  mark(Polygon{std::move(points), fill, outline_of(outline, width)});
}

void Sketch::rect(Point corner, double width, double height, std::optional<Ink> fill, std::optional<Ink> outline, double pen) {
  mark(Rect{corner, width, height, fill, outline_of(outline, pen)});
}

void Sketch::circle(Point centre, double radius, std::optional<Ink> fill, std::optional<Ink> outline, double pen) {
  mark(Circle{centre, radius, fill, outline_of(outline, pen)});
}

void Sketch::arc(Point centre, double radius, double from_degrees, double to_degrees, Ink ink, double width) {
  mark(Arc{centre, radius, from_degrees, to_degrees, {ink, width, Dash::solid}});
}

void Sketch::text(Point at, std::string words, const Type& type) {
  if (!words.empty()) mark(Text{at, std::move(words), type.size, type.ink, type.anchor, type.weight});
}

void Sketch::text_within(Point at, std::string_view words, const Type& type, double width) {
  text(at, shortened(words, type.size, type.weight, width), type);
}

bool Sketch::figure_within(Point at, std::string_view words, const Type& type, double width) {
  if (width_of(words, type) > width) return false;
  text(at, std::string(words), type);
  return true;
}

double Sketch::box(Point top, double width, std::string_view words, const Type& type) {
  TextBox made{top, width, std::string(words), type.size, type.ink, type.anchor, type.weight};
  const double lower = top.y + height_of(made);
  if (!words.empty()) mark(std::move(made));
  return words.empty() ? top.y : lower;
}

double Sketch::short_box(Point top, double width, std::string_view words, const Type& type, std::size_t lines) {
  const std::vector<std::string> all = broken_lines(words, type.size, type.weight, width);
  if (all.size() <= lines) return box(top, width, words, type);
  std::string rest;
  for (std::size_t i = lines - 1; i < all.size(); ++i) rest += (rest.empty() ? "" : " ") + all[i];
  for (std::size_t i = 0; i + 1 < lines; ++i) top.y = box(top, width, all[i], type);
  return box(top, width, shortened(rest, type.size, type.weight, width), type);
}

void Sketch::arrow_head(Point tip, double degrees, double length, Ink ink) {
  const Point left = circle_point(tip, length, degrees + 180.0 - 24.0);
  const Point right = circle_point(tip, length, degrees + 180.0 + 24.0);
  area({tip, left, right}, ink);
}

void Sketch::arrow(Point from, Point to, Ink ink, double width, double head) {
  const double degrees = std::atan2(to.x - from.x, from.y - to.y) * 180.0 / std::numbers::pi;
  line(from, circle_point(to, 0.7 * head, degrees + 180.0), ink, width);
  arrow_head(to, degrees, head, ink);
}

void Sketch::hatch(Point corner, double width, double height, Ink ink, double step) {
  // Lines from lower left to upper right, cut at the area's edges.
  for (double start = step; start < width + height; start += step) {
    const double from_x = std::min(start, width);
    const double from_y = start - from_x;
    const double to_y = std::min(start, height);
    const double to_x = start - to_y;
    line({corner.x + from_x, corner.y + from_y}, {corner.x + to_x, corner.y + to_y}, ink, 0.7);
  }
}

void Sketch::begin(std::string kind, std::optional<std::string> place, bool page_only) {
  mark(GroupStart{std::move(kind), std::move(place), page_only});
}

void Sketch::end() { mark(GroupEnd{}); }

Drawing Sketch::done(std::string title, std::string description) && {
  drawing_.title = std::move(title);
  drawing_.description = std::move(description);
  return std::move(drawing_);
}

double width_of(std::string_view words, const Type& type) { return guessed_width(words, type.size, type.weight); }

std::string say(std::string key, std::vector<Argument> arguments, Language language) {
  return sentence(Message{std::move(key), std::move(arguments)}, language);
}

std::string typeset(std::string digits, Language language) {
  std::string out = with_decimal_mark(std::move(digits), language);
  return out.starts_with('-') ? "\xe2\x88\x92" + out.substr(1) : out;
}

std::string figure_of(double millimetres, UnitId unit, Language language) {
  const double in_unit = millimetres * static_cast<double>(Length::kCountsPerMillimetre) / unit_definition(unit).factor.to_double();
  const int decimals = unit == UnitId::millimetre ? 3 : unit == UnitId::inch ? 4 : fine_decimals(unit);
  return typeset(print_fixed(in_unit, decimals), language);
}

std::string signed_figure_of(double millimetres, UnitId unit, Language language) {
  std::string out = figure_of(millimetres, unit, language);
  const bool nothing = out.find_first_of("123456789") == std::string::npos;
  return nothing || millimetres < 0.0 ? out : "+" + out;
}

std::string symbol_of(UnitId unit) { return std::string(unit_definition(unit).symbol); }

std::string sentences_joined(const std::vector<std::string>& parts, std::string_view between) {
  std::string out;
  for (const std::string& each : parts) {
    if (!out.empty()) out += between;
    out += each;
  }
  return out;
}

double round_step_below(double value) {
  FETTLE_ASSERT(value > 0.0 && std::isfinite(value), "a step of nothing");
  double power = 1.0;
  while (power > value) power /= 10.0;
  while (power * 10.0 <= value) power *= 10.0;
  return value >= 5.0 * power ? 5.0 * power : value >= 2.0 * power ? 2.0 * power : power;
}

double round_step_above(double value) {
  const double below = round_step_below(value);
  // 0.05 as a sum of binary fractions may lie a hair above 0.05.
  if (below >= value * (1.0 - 1e-9)) return below;
  // After 1 comes 2, after 2 comes 5, after 5 comes 10.
  return round_step_below(below * 2.0000001) > 1.5 * below ? 2.0 * below : 2.5 * below;
}

}  // namespace fettle
