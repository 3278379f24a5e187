#include "drawing/painter.h"

#include <pango/pangocairo.h>

#include <array>
#include <cmath>
#include <numbers>

#include "base/assertion.h"
#include "drawing/circle_point.h"
#include "drawing/text_lines.h"
#include "drawing/xml_text.h"

namespace fettle {
namespace {

/// Straight up is -90° where cairo counts from the x axis.
double cairo_angle(double degrees) { return (degrees - 90.0) * std::numbers::pi / 180.0; }

class MarkPainter {
 public:
  MarkPainter(cairo_t* target, Palette palette) : target_(target), palette_(palette) {}

  void operator()(const Line& line) {
    move(line.from);
    go(line.to);
    paint(std::nullopt, line.stroke);
  }
  void operator()(const Polyline& line) {
    FETTLE_ASSERT(line.points.size() >= 2, "a line of one point");
    through(line.points);
    paint(std::nullopt, line.stroke);
  }
  void operator()(const Polygon& area) {
    FETTLE_ASSERT(area.points.size() >= 3, "an area of two points");
    through(area.points);
    cairo_close_path(target_);
    paint(area.fill, area.stroke);
  }
  void operator()(const Rect& rect) {
    FETTLE_ASSERT(rect.width >= 0.0 && rect.height >= 0.0, "a negative length in a drawing");
    check(rect.corner);
    cairo_rectangle(target_, rect.corner.x, rect.corner.y, rect.width, rect.height);
    paint(rect.fill, rect.stroke);
  }
  void operator()(const Circle& circle) {
    FETTLE_ASSERT(circle.radius >= 0.0, "a negative length in a drawing");
    check(circle.centre);
    cairo_arc(target_, circle.centre.x, circle.centre.y, circle.radius, 0.0, 2.0 * std::numbers::pi);
    paint(circle.fill, circle.stroke);
  }
  void operator()(const Text& text) {
    FETTLE_ASSERT(text.ink != Ink::wash, "text in an ink that is too pale to read: " + text.words);
    FETTLE_ASSERT(text.size > 0.0, "text without a size: " + text.words);
    check(text.at);
    colour(text.ink);
    PrintedText(target_, text).show(target_);
  }
  void operator()(const TextBox& box) {
    for (const Text& line : lines_of(box)) (*this)(line);
  }
  void operator()(const Arc& arc) {
    add_arc(arc.centre, arc.radius, arc.from_degrees, arc.to_degrees);
    paint(std::nullopt, arc.stroke);
  }
  void operator()(const Path& path) {
    FETTLE_ASSERT(!path.steps.empty() && std::holds_alternative<PathMove>(path.steps.front()), "a path from nowhere");
    for (const PathStep& each : path.steps) step(each);
    paint(path.fill, path.stroke);
  }
  void operator()(const GroupStart& group) {
    ++open_;
    left_out_ += left_out_ > 0 || group.page_only ? 1 : 0;
  }
  void operator()(const GroupEnd&) {
    FETTLE_ASSERT(open_ > 0, "a group ends that did not begin");
    --open_;
    left_out_ -= left_out_ > 0 ? 1 : 0;
  }

  [[nodiscard]] bool passes_over(const DrawnMark& mark) const {
    return left_out_ > 0 && !std::holds_alternative<GroupStart>(mark) && !std::holds_alternative<GroupEnd>(mark);
  }
  [[nodiscard]] bool all_closed() const { return open_ == 0; }

 private:
  static void check(Point point) {
    FETTLE_ASSERT(std::isfinite(point.x) && std::isfinite(point.y), "a place in a drawing that is no number");
  }
  void move(Point to) {
    check(to);
    cairo_move_to(target_, to.x, to.y);
  }
  void go(Point to) {
    check(to);
    cairo_line_to(target_, to.x, to.y);
  }
  void through(const std::vector<Point>& points) {
    move(points.front());
    for (std::size_t i = 1; i < points.size(); ++i) go(points[i]);
  }
  void add_arc(Point centre, double radius, double from, double to) {
    FETTLE_ASSERT(radius >= 0.0 && std::fabs(to - from) < 360.0, "an arc of a full turn or more");
    check(centre);
    if (to >= from) {
      cairo_arc(target_, centre.x, centre.y, radius, cairo_angle(from), cairo_angle(to));
    } else {
      cairo_arc_negative(target_, centre.x, centre.y, radius, cairo_angle(from), cairo_angle(to));
    }
  }
  void step(const PathStep& step) {
    if (const auto* to = std::get_if<PathMove>(&step)) move(to->to);
    if (const auto* to = std::get_if<PathLine>(&step)) go(to->to);
    if (const auto* curve = std::get_if<PathCurve>(&step)) {
      check(curve->control_one);
      check(curve->control_two);
      check(curve->to);
      cairo_curve_to(target_, curve->control_one.x, curve->control_one.y, curve->control_two.x, curve->control_two.y,
                     curve->to.x, curve->to.y);
    }
    if (const auto* arc = std::get_if<PathArc>(&step)) {
      add_arc(arc->centre, arc->radius, arc->from_degrees, arc->to_degrees);
    }
    if (std::holds_alternative<PathClose>(step)) cairo_close_path(target_);
  }

  void colour(Ink ink) {
    const Colour rgb = colour_of(ink, palette_);
    cairo_set_source_rgb(target_, rgb.red / 255.0, rgb.green / 255.0, rgb.blue / 255.0);
  }
  /// Fills and strokes the current path and forgets it.
  void paint(std::optional<Ink> fill, const std::optional<Stroke>& stroke) {
    if (fill) {
      colour(*fill);
      cairo_fill_preserve(target_);
    }
    if (stroke) {
      FETTLE_ASSERT(stroke->width >= 0.0, "a negative length in a drawing");
      colour(stroke->ink);
      cairo_set_line_width(target_, stroke->width);
      const double on = (stroke->dash == Dash::dashed ? 5.0 : 1.0) * stroke->width;
      const double off = (stroke->dash == Dash::dashed ? 3.0 : 2.0) * stroke->width;
      const std::array lengths = {on, off};
      cairo_set_dash(target_, lengths.data(), stroke->dash == Dash::solid || stroke->width == 0.0 ? 0 : 2, 0.0);
      cairo_stroke_preserve(target_);
    }
    cairo_new_path(target_);
  }

  cairo_t* target_;
  Palette palette_;
  int open_ = 0;
  int left_out_ = 0;
};

}  // namespace

PrintedText::PrintedText(cairo_t* target, const Text& text) : layout_(pango_cairo_create_layout(target)), text_(text) {
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(pango_layout_get_context(layout_.get()), options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(pango_layout_get_context(layout_.get()), FALSE);
  PangoFontDescription* face = pango_font_description_new();
  pango_font_description_set_family(face, kPrintedFace);
  pango_font_description_set_weight(face, text.weight == Weight::bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
  pango_font_description_set_absolute_size(face, text.size * PANGO_SCALE);
  pango_layout_set_font_description(layout_.get(), face);
  pango_font_description_free(face);
  PangoAttrList* attributes = pango_attr_list_new();
  pango_attr_list_insert(attributes, pango_attr_fallback_new(FALSE));
  pango_layout_set_attributes(layout_.get(), attributes);
  pango_attr_list_unref(attributes);
  pango_layout_set_single_paragraph_mode(layout_.get(), TRUE);
  const std::string words = clean_text(text.words);
  pango_layout_set_text(layout_.get(), words.c_str(), static_cast<int>(words.size()));
}

void PrintedText::Release::operator()(PangoLayout* layout) const { g_object_unref(layout); }

double PrintedText::width() const {
  PangoRectangle logical{};
  pango_layout_get_extents(layout_.get(), nullptr, &logical);
  return static_cast<double>(logical.width) / PANGO_SCALE;
}

int PrintedText::unknown_letters() const { return pango_layout_get_unknown_glyphs_count(layout_.get()); }

void PrintedText::show(cairo_t* target) const {
  const double width = text_.anchor == Anchor::start ? 0.0 : this->width();
  const double left = text_.at.x - (text_.anchor == Anchor::middle ? width / 2.0 : width);
  cairo_move_to(target, left, text_.at.y);
  pango_cairo_show_layout_line(target, pango_layout_get_line_readonly(layout_.get(), 0));
  // Showing a text leaves a current point, from which the next arc would draw a line.
  cairo_new_path(target);
}

void paint_drawing(cairo_t* target, const Drawing& drawing, Palette palette) {
  FETTLE_ASSERT(drawing.width > 0.0 && drawing.height > 0.0, "a drawing without a size");
  MarkPainter painter(target, palette);
  painter(Rect{{0.0, 0.0}, drawing.width, drawing.height, Ink::paper, std::nullopt});
  for (const DrawnMark& mark : drawing.marks) {
    if (!painter.passes_over(mark)) std::visit(painter, mark);
  }
  FETTLE_ASSERT(painter.all_closed(), "a group of a drawing that does not end");
}

}  // namespace fettle
