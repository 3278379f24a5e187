#include "drawing/svg.h"

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

#include "base/assertion.h"

namespace fettle {
namespace {

constexpr std::string_view kReplacement = "\xef\xbf\xbd";  // U+FFFD
constexpr std::string_view kFaces = "system-ui, -apple-system, 'Segoe UI', 'DejaVu Sans', sans-serif";

std::string number(double value) {
  FETTLE_ASSERT(std::isfinite(value) && std::fabs(value) < 1e9, "a place in a drawing that is no number");
  std::array<char, 32> buffer{};
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, 2);
  FETTLE_ASSERT(error == std::errc(), "a place in a drawing that is too long to print");
  const std::string text(buffer.data(), end);
  return text == "-0.00" ? "0.00" : text;
}

std::string length(double value) {
  FETTLE_ASSERT(value >= 0.0, "a negative length in a drawing");
  return number(value);
}

/// Bytes of the UTF-8 character that `text` begins with; 0 if it begins with none that XML 1.0 allows.
std::size_t character_bytes(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<std::uint32_t>(static_cast<unsigned char>(text[i])); };
  const std::uint32_t first = byte(0);
  if (first < 0x80U) return first >= 0x20U || first == '\t' || first == '\n' || first == '\r' ? 1 : 0;
  const std::size_t bytes = first >= 0xf0U ? 4 : first >= 0xe0U ? 3 : 2;
  if (first < 0xc2U || first > 0xf4U || text.size() < bytes) return 0;
  std::uint32_t code = first & (0xffU >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xc0U) != 0x80U) return 0;
    code = code << 6U | (byte(i) & 0x3fU);
  }
  const bool too_long = (bytes == 3 && code < 0x800U) || (bytes == 4 && code < 0x10000U);
  const bool surrogate = code >= 0xd800U && code <= 0xdfffU;
  return too_long || surrogate || code == 0xfffeU || code == 0xffffU || code > 0x10ffffU ? 0 : bytes;
}

std::string escaped(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t bytes = character_bytes(text);
    const std::string_view character = text.substr(0, bytes == 0 ? 1 : bytes);
    if (bytes == 0) {
      out += kReplacement;
    } else if (character == "&") {
      out += "&amp;";
    } else if (character == "<") {
      out += "&lt;";
    } else if (character == ">") {
      out += "&gt;";
    } else if (character == "\"") {
      out += "&quot;";
    } else {
      out += character;
    }
    text.remove_prefix(character.size());
  }
  return out;
}

std::string hex(Colour colour) {
  constexpr std::string_view kDigits = "0123456789abcdef";
  std::string out = "#";
  for (const unsigned part : {colour.red, colour.green, colour.blue}) {
    out += kDigits[part >> 4U];
    out += kDigits[part & 15U];
  }
  return out;
}

bool is_id(std::string_view id) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  if (id.empty() || !letter(id.front())) return false;
  for (const char c : id) {
    if (!letter(c) && !(c >= '0' && c <= '9') && c != '-') return false;
  }
  return true;
}

/// Writes one mark as one element on a line of its own.
class MarkWriter {
 public:
  MarkWriter(SvgPalette palette, std::string& out) : palette_(palette), out_(out) {}

  void operator()(const Line& line) {
    out_ += "<line";
    place("x1", line.from.x, "y1", line.from.y);
    place("x2", line.to.x, "y2", line.to.y);
    stroke(line.stroke);
    out_ += "/>\n";
  }
  void operator()(const Polyline& line) {
    FETTLE_ASSERT(line.points.size() >= 2, "a line of one point");
    out_ += "<polyline";
    points(line.points);
    paint(std::nullopt, line.stroke);
    out_ += "/>\n";
  }
  void operator()(const Polygon& area) {
    FETTLE_ASSERT(area.points.size() >= 3, "an area of two points");
    out_ += "<polygon";
    points(area.points);
    paint(area.fill, area.stroke);
    out_ += "/>\n";
  }
  void operator()(const Rect& rect) {
    out_ += "<rect";
    place("x", rect.corner.x, "y", rect.corner.y);
    attribute("width", length(rect.width));
    attribute("height", length(rect.height));
    paint(rect.fill, rect.stroke);
    out_ += "/>\n";
  }
  void operator()(const Circle& circle) {
    out_ += "<circle";
    place("cx", circle.centre.x, "cy", circle.centre.y);
    attribute("r", length(circle.radius));
    paint(circle.fill, circle.stroke);
    out_ += "/>\n";
  }
  void operator()(const Text& text) {
    FETTLE_ASSERT(text.ink != Ink::wash, "text in an ink that is too pale to read: " + text.words);
    FETTLE_ASSERT(text.size > 0.0, "text without a size: " + text.words);
    out_ += "<text";
    place("x", text.at.x, "y", text.at.y);
    attribute("font-size", number(text.size));
    attribute("fill", hex(svg_colour(text.ink, palette_)));
    if (text.anchor == Anchor::middle) attribute("text-anchor", "middle");
    if (text.anchor == Anchor::end) attribute("text-anchor", "end");
    if (text.weight == Weight::bold) attribute("font-weight", "bold");
    out_ += ">" + escaped(text.words) + "</text>\n";
  }

 private:
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
  void points(const std::vector<Point>& points) {
    std::string list;
    for (const Point& point : points) {
      if (!list.empty()) list += ' ';
      list += number(point.x) + "," + number(point.y);
    }
    attribute("points", list);
  }
  void stroke(const Stroke& stroke) {
    attribute("stroke", hex(svg_colour(stroke.ink, palette_)));
    attribute("stroke-width", length(stroke.width));
    // In strokes' widths, so that a dash looks the same at any scale.
    if (stroke.dash == Dash::dashed) {
      attribute("stroke-dasharray", number(5.0 * stroke.width) + "," + number(3.0 * stroke.width));
    }
    if (stroke.dash == Dash::dotted) {
      attribute("stroke-dasharray", number(stroke.width) + "," + number(2.0 * stroke.width));
    }
  }
  void paint(std::optional<Ink> fill, const std::optional<Stroke>& line) {
    attribute("fill", fill ? hex(svg_colour(*fill, palette_)) : "none");
    if (line) stroke(*line);
  }

  SvgPalette palette_;
  std::string& out_;
};

}  // namespace

Colour svg_colour(Ink ink, SvgPalette palette) {
  const bool paper = palette == SvgPalette::paper;
  switch (ink) {
    case Ink::ink:  // oil grey
      return paper ? Colour{0x24, 0x29, 0x2b} : Colour{0xe6, 0xe4, 0xdc};
    case Ink::faint:  // iron
      return paper ? Colour{0x5c, 0x64, 0x66} : Colour{0xa3, 0xa9, 0xa8};
    case Ink::accent:  // brass
      return paper ? Colour{0x7d, 0x5a, 0x12} : Colour{0xd8, 0xb0, 0x64};
    case Ink::second:  // slate
      return paper ? Colour{0x35, 0x60, 0x8a} : Colour{0x8d, 0xb4, 0xda};
    case Ink::third:  // heather
      return paper ? Colour{0x6d, 0x4a, 0x78} : Colour{0xc7, 0xa3, 0xd1};
    case Ink::wash:  // chalk line
      return paper ? Colour{0xdc, 0xdc, 0xd3} : Colour{0x3a, 0x40, 0x43};
    case Ink::paper:
      return paper ? Colour{0xfb, 0xfa, 0xf6} : Colour{0x1c, 0x20, 0x22};
  }
  FETTLE_ASSERT(false, "an ink without a colour");
}

std::string svg(const Drawing& drawing, const SvgStyle& style) {
  FETTLE_ASSERT(drawing.width > 0.0 && drawing.height > 0.0, "a drawing without a size");
  FETTLE_ASSERT(is_id(style.id), "no id for a file: " + style.id);
  const std::string width = number(drawing.width);
  const std::string height = number(drawing.height);
  const std::string unit = drawing.unit == DrawingUnit::millimetre ? "mm" : "";
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width + unit + "\" height=\"" + height +
                    unit + "\" viewBox=\"0 0 " + width + " " + height + "\" role=\"img\" aria-labelledby=\"" +
                    style.id + "-title " + style.id + "-desc\" font-family=\"" + std::string(kFaces) + "\">\n";
  out += "<title id=\"" + style.id + "-title\">" + escaped(drawing.title) + "</title>\n";
  out += "<desc id=\"" + style.id + "-desc\">" + escaped(drawing.description) + "</desc>\n";
  MarkWriter writer(style.palette, out);
  writer(Rect{{0.0, 0.0}, drawing.width, drawing.height, Ink::paper, std::nullopt});
  for (const DrawnMark& mark : drawing.marks) std::visit(writer, mark);
  return out + "</svg>\n";
}

}  // namespace fettle
