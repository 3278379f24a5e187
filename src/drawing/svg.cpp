#include "drawing/svg.h"

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

#include "base/assertion.h"
#include "drawing/circle_point.h"
#include "drawing/palette.h"
#include "drawing/text_lines.h"
#include "drawing/xml_text.h"

namespace fettle {
namespace {

constexpr std::string_view kFaces = "system-ui, -apple-system, 'Segoe UI', 'DejaVu Sans', sans-serif";

std::string hex(Colour colour) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string out = "#";
  for (const unsigned part : {colour.red, colour.green, colour.blue}) {
    out += kDigits[part >> 4U];
    out += kDigits[part & 15U];
  }
  return out;
}

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

bool is_id(std::string_view id) {
  if (id.empty() || !is_letter(id.front())) return false;
  for (const char c : id) {
    if (!is_letter(c) && !(c >= '0' && c <= '9') && c != '-') return false;
  }
  return true;
}

bool is_kind(std::string_view kind) {
  if (kind.empty() || !is_letter(kind.front())) return false;
  for (const char c : kind) {
    if (!is_letter(c) && !(c >= '0' && c <= '9') && c != '-' && c != ' ') return false;
  }
  return true;
}

/// Writes one mark as one element on a line of its own.
class MarkWriter {
 public:
  MarkWriter(SvgPalette palette, std::string& out) : palette_(palette), out_(out) {}

  void operator()(const Line& line) {
    begin("line");
    place("x1", line.from.x, "y1", line.from.y);
    place("x2", line.to.x, "y2", line.to.y);
    paint_line(line.stroke);
    end();
  }
  void operator()(const Polyline& line) {
    FETTLE_ASSERT(line.points.size() >= 2, "a line of one point");
    begin("polyline");
    points(line.points);
    paint(std::nullopt, line.stroke);
    end();
  }
  void operator()(const Polygon& area) {
    FETTLE_ASSERT(area.points.size() >= 3, "an area of two points");
    begin("polygon");
    points(area.points);
    paint(area.fill, area.stroke);
    end();
  }
  void operator()(const Rect& rect) {
    begin("rect");
    place("x", rect.corner.x, "y", rect.corner.y);
    attribute("width", length(rect.width));
    attribute("height", length(rect.height));
    paint(rect.fill, rect.stroke);
    end();
  }
  void operator()(const Circle& circle) {
    begin("circle");
    place("cx", circle.centre.x, "cy", circle.centre.y);
    attribute("r", length(circle.radius));
    paint(circle.fill, circle.stroke);
    end();
  }
  void operator()(const Text& text) {
    FETTLE_ASSERT(text.ink != Ink::wash, "text in an ink that is too pale to read: " + text.words);
    FETTLE_ASSERT(text.size > 0.0, "text without a size: " + text.words);
    begin("text");
    place("x", text.at.x, "y", text.at.y);
    attribute("font-size", number(text.size));
    fill(text.ink);
    if (text.anchor == Anchor::middle) attribute("text-anchor", "middle");
    if (text.anchor == Anchor::end) attribute("text-anchor", "end");
    if (text.weight == Weight::bold) attribute("font-weight", "bold");
    classes();
    out_ += ">" + escaped_text(text.words) + "</text>\n";
  }
  void operator()(const TextBox& box) {
    for (const Text& line : lines_of(box)) (*this)(line);
  }
  void operator()(const Arc& arc) {
    const Point from = circle_point(arc.centre, arc.radius, arc.from_degrees);
    begin("path");
    attribute("d", "M" + point(from) + arc_to(arc.centre, arc.radius, arc.from_degrees, arc.to_degrees));
    paint(std::nullopt, arc.stroke);
    end();
  }
  void operator()(const Path& path) {
    FETTLE_ASSERT(!path.steps.empty() && std::holds_alternative<PathMove>(path.steps.front()), "a path from nowhere");
    std::string steps;
    for (const PathStep& each : path.steps) steps += step(each);
    begin("path");
    attribute("d", steps);
    paint(path.fill, path.stroke);
    end();
  }
  void operator()(const GroupStart& group) {
    FETTLE_ASSERT(is_kind(group.kind), "no kind of a group: " + group.kind);
    left_out_ += left_out_ > 0 || (group.page_only && !page()) ? 1 : 0;
    ++open_;
    if (left_out_ > 0) return;
    out_ += "<g";
    attribute("class", group.kind);
    if (group.place) attribute("data-place", escaped_text(*group.place));
    out_ += ">\n";
  }
  void operator()(const GroupEnd&) {
    FETTLE_ASSERT(open_ > 0, "a group ends that did not begin");
    --open_;
    if (left_out_ > 0) {
      --left_out_;
    } else {
      out_ += "</g>\n";
    }
  }

  /// Whether marks are being left out now.
  [[nodiscard]] bool passes_over(const DrawnMark& mark) const {
    return left_out_ > 0 && !std::holds_alternative<GroupStart>(mark) && !std::holds_alternative<GroupEnd>(mark);
  }
  [[nodiscard]] bool all_closed() const { return open_ == 0; }

  [[nodiscard]] std::string number(double value) const {
    FETTLE_ASSERT(std::isfinite(value) && std::fabs(value) < 1e9, "a place in a drawing that is no number");
    std::array<char, 32> buffer{};
    const auto [stop, error] =
        std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, 2);
    FETTLE_ASSERT(error == std::errc(), "a place in a drawing that is too long to print");
    std::string text(buffer.data(), stop);
    if (text == "-0.00") text = "0.00";
    if (!page()) return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
  }

 private:
  [[nodiscard]] bool page() const { return palette_ == SvgPalette::page; }

  void begin(std::string_view element) {
    out_ += '<';
    out_ += element;
    classes_.clear();
  }
  void end() {
    classes();
    out_ += "/>\n";
  }
  void attribute(std::string_view name, std::string_view value) {
    out_ += ' ';
    out_ += name;
    out_ += "=\"";
    out_ += value;
    out_ += '"';
  }
  void place(std::string_view x_name, double x, std::string_view y_name, double y) {
    attribute(x_name, number(x));
    attribute(y_name, number(y));
  }
  [[nodiscard]] std::string length(double value) const {
    FETTLE_ASSERT(value >= 0.0, "a negative length in a drawing");
    return number(value);
  }
  [[nodiscard]] std::string point(Point at) const { return number(at.x) + "," + number(at.y); }
  void points(const std::vector<Point>& points) {
    std::string list;
    for (const Point& each : points) list += (list.empty() ? "" : " ") + point(each);
    attribute("points", list);
  }

  [[nodiscard]] std::string arc_to(Point centre, double radius, double from, double to) const {
    FETTLE_ASSERT(std::fabs(to - from) < 360.0, "an arc of a full turn or more");
    return " A" + length(radius) + "," + number(radius) + " 0 " + (std::fabs(to - from) > 180.0 ? "1" : "0") + " " +
           (to >= from ? "1" : "0") + " " + point(circle_point(centre, radius, to));
  }
  [[nodiscard]] std::string step(const PathStep& step) const {
    if (const auto* move = std::get_if<PathMove>(&step)) return "M" + point(move->to);
    if (const auto* line = std::get_if<PathLine>(&step)) return " L" + point(line->to);
    if (const auto* curve = std::get_if<PathCurve>(&step)) {
      return " C" + point(curve->control_one) + " " + point(curve->control_two) + " " + point(curve->to);
    }
    if (const auto* arc = std::get_if<PathArc>(&step)) {
      return " L" + point(circle_point(arc->centre, arc->radius, arc->from_degrees)) +
             arc_to(arc->centre, arc->radius, arc->from_degrees, arc->to_degrees);
    }
    return " Z";
  }

  [[nodiscard]] std::string colour(Ink ink) const {
    return hex(colour_of(ink, palette_ == SvgPalette::night ? Palette::night : Palette::paper));
  }
  void add_class(std::string_view letter, Ink ink) {
    if (!classes_.empty()) classes_ += ' ';
    classes_ += letter;
    classes_ += ink_name(ink);
  }
  void classes() {
    if (!classes_.empty()) attribute("class", classes_);
    classes_.clear();
  }
  void fill(Ink ink) {
    if (page()) {
      add_class("f-", ink);
    } else {
      attribute("fill", colour(ink));
    }
  }
  void paint_line(const Stroke& stroke) {
    if (page()) {
      add_class("s-", stroke.ink);
    } else {
      attribute("stroke", colour(stroke.ink));
    }
    attribute("stroke-width", length(stroke.width));
    // In strokes' widths, so that a dash looks the same at any scale.
    if (stroke.dash == Dash::dashed) {
      attribute("stroke-dasharray", number(5.0 * stroke.width) + "," + number(3.0 * stroke.width));
    }
    if (stroke.dash == Dash::dotted) {
      attribute("stroke-dasharray", number(stroke.width) + "," + number(2.0 * stroke.width));
    }
  }
  void paint(std::optional<Ink> area, const std::optional<Stroke>& line) {
    if (area) {
      fill(*area);
    } else {
      attribute("fill", "none");
    }
    if (line) paint_line(*line);
    if (page() && !area && !line) attribute("pointer-events", "all");
  }

  SvgPalette palette_;
  std::string& out_;
  std::string classes_;
  int open_ = 0;
  int left_out_ = 0;  ///< groups within one that is left out, that one counted
};

std::string head_of(const Drawing& drawing, const SvgStyle& style, const MarkWriter& writer) {
  const std::string width = writer.number(drawing.width);
  const std::string height = writer.number(drawing.height);
  const std::string unit = drawing.unit == DrawingUnit::millimetre ? "mm" : "";
  const bool page = style.palette == SvgPalette::page;
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\"";
  out += page ? " class=\"drawing\" width=\"100%\""
              : " width=\"" + width + unit + "\" height=\"" + height + unit + "\"";
  out += " viewBox=\"0 0 " + width + " " + height + "\" role=\"img\" aria-labelledby=\"" + style.id + "-title " +
         style.id + "-desc\"";
  if (!page) out += " font-family=\"" + std::string(kFaces) + "\"";
  out += ">\n<title id=\"" + style.id + "-title\">" + escaped_text(drawing.title) + "</title>\n";
  return out + "<desc id=\"" + style.id + "-desc\">" + escaped_text(drawing.description) + "</desc>\n";
}

}  // namespace

std::string svg(const Drawing& drawing, const SvgStyle& style) {
  FETTLE_ASSERT(drawing.width > 0.0 && drawing.height > 0.0, "a drawing without a size");
  FETTLE_ASSERT(is_id(style.id), "no id for a file: " + style.id);
  std::string out;
  MarkWriter writer(style.palette, out);
  out = head_of(drawing, style, writer);
  if (style.palette != SvgPalette::page) {
    writer(Rect{{0.0, 0.0}, drawing.width, drawing.height, Ink::paper, std::nullopt});
  }
  for (const DrawnMark& mark : drawing.marks) {
    if (!writer.passes_over(mark)) std::visit(writer, mark);
  }
  FETTLE_ASSERT(writer.all_closed(), "a group of a drawing that does not end");
  return out + "</svg>\n";
}

}  // namespace fettle
