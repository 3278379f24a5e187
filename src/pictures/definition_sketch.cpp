#include "pictures/definition_sketch.h"

#include <algorithm>
#include <vector>

#include "drawing/circle_point.h"
#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kWidth = 148.0;
constexpr double kHeight = 92.0;
constexpr double kTop = 14.0;     ///< of the first height
constexpr double kBottom = 78.0;  ///< of the last one
constexpr double kLeft = 18.0;    ///< of the hole, or of the shaft
constexpr double kRight = 62.0;
constexpr double kWall = 10.0;
constexpr Point kEnd{114.0, 36.0};  ///< the middle of the view from the end
constexpr double kRadius = 22.0;
constexpr double kFormulaWidth = 68.0;
constexpr Type kFormula{kPictureText, Ink::ink, Anchor::middle, Weight::regular};

/// The places that are still open while the expression is walked from outside in.
struct Open {
  std::vector<bool> stations;
  std::vector<bool> directions;
};

/// What an expression looks at, and what it compares.
struct Looked {
  std::vector<bool> cells;
  bool heights = false;     ///< compared along the part
  bool across = false;      ///< compared around it
  bool with_sign = false;   ///< one less the other, not the larger less the smaller
};

Looked nothing_looked_at(const Layout& layout) {
  Looked out;
  out.cells.resize(layout.cells());
  return out;
}

class Walk {
 public:
  explicit Walk(const Layout& layout) : layout_(layout), out_(nothing_looked_at(layout)) {}

  Looked run(const Expression& expression) {
    Open all;
    for (const Station& each : layout_.stations) all.stations.push_back(each.counted);
    for (const Direction& each : layout_.directions) all.directions.push_back(each.counted);
    walk(expression, all);
    return std::move(out_);
  }

 private:
  void walk(const Expression& each, Open open) {
    switch (each.operation) {
      case Operation::standard:
      case Operation::nominal:
      case Operation::number:
      case Operation::length: return;
      case Operation::at: narrow(each, open); break;
      case Operation::place: return mark_station(each.member);
      case Operation::range: compare(each.over); break;
      case Operation::slope:
      case Operation::tilt_along: out_.heights = true; break;
      case Operation::difference: difference(each); break;
      case Operation::amplitude:
      case Operation::tilt_across: out_.across = true; break;
      case Operation::apart:
      case Operation::cosine:
      case Operation::arccosine:
      case Operation::of:
      case Operation::size:
      case Operation::max:
      case Operation::min:
      case Operation::mean:
      case Operation::factor:
      case Operation::ratio:
      case Operation::sum:
      case Operation::product:
      case Operation::quotient:
      case Operation::vector_difference:
      case Operation::neighbour_rule:
      case Operation::per_span:
      case Operation::twist:
      case Operation::off_plane: break;
    }
    if (each.parts.empty()) return mark(open);
    for (const Expression& part : each.parts) walk(part, open);
  }

  void narrow(const Expression& each, Open& open) const {
    for (std::size_t i = 0; i < open.stations.size(); ++i) {
      const Station& station = layout_.stations[i];
      const bool role = each.roles.empty() || std::find(each.roles.begin(), each.roles.end(), station.role) != each.roles.end();
      const bool group = each.groups.empty() || (station.group && std::find(each.groups.begin(), each.groups.end(), *station.group) != each.groups.end());
      open.stations[i] = open.stations[i] && role && group;
    }
    if (each.axes.empty()) return;
    for (std::size_t i = 0; i < open.directions.size(); ++i) {
      const auto named = [&](Axis axis) { return layout_.find_axis(axis) == i; };
      open.directions[i] = open.directions[i] && std::any_of(each.axes.begin(), each.axes.end(), named);
    }
  }

  void compare(Over over) {
    out_.heights = out_.heights || over != Over::directions;
    out_.across = out_.across || over != Over::heights;
  }
  /// Two heights of one part, unless one of the two is a size that is given or another part.
  void difference(const Expression& each) {
    const auto looks = [](const Expression& part) { return part.operation == Operation::at; };
    if (!std::any_of(each.parts.begin(), each.parts.end(), looks)) return;
    out_.heights = true;
    out_.with_sign = true;
  }

  void mark(const Open& open) {
    for (std::size_t s = 0; s < open.stations.size(); ++s) {
      for (std::size_t d = 0; d < open.directions.size(); ++d) {
        if (open.stations[s] && open.directions[d] && layout_.there(layout_.cell(s, d))) out_.cells[layout_.cell(s, d)] = true;
      }
    }
  }
  void mark_station(const std::string& id) {
    const auto station = layout_.find_station(id);
    if (!station) return;
    for (std::size_t d = 0; d < layout_.directions.size(); ++d) out_.cells[layout_.cell(*station, d)] = true;
  }

  const Layout& layout_;
  Looked out_;
};

/// What is made of the readings: "max", "max - min", "mean"; the outermost that says something.
std::string formula(const Expression& each, Language language) {
  switch (each.operation) {
    case Operation::max:
    case Operation::min:
    case Operation::mean: {
      const std::string inner = each.parts.empty() ? "" : formula(each.parts.front(), language);
      if (!inner.empty()) return inner;
      return each.operation == Operation::max ? "max" : each.operation == Operation::min ? "min" : say("pictures.definition.mean", {}, language);
    }
    case Operation::range: return "max − min";
    case Operation::difference:
    case Operation::vector_difference: {
      const std::string first = each.parts.empty() ? "" : formula(each.parts[0], language);
      const std::string second = each.parts.size() < 2 ? "" : formula(each.parts[1], language);
      return (first.empty() ? "a" : first) + " − " + (second.empty() ? "b" : second);
    }
    case Operation::standard: return say("pictures.definition.standard", {}, language);
    case Operation::nominal: return say("pictures.definition.nominal", {}, language);
    case Operation::slope:
    case Operation::per_span:
    case Operation::tilt_along:
    case Operation::tilt_across: return "Δ / L";
    case Operation::factor: return each.number == Ratio::of(1, 2) ? "½ ×" : "×";
    case Operation::ratio:
    case Operation::quotient: return "a / b";
    case Operation::sum: return "a + b";
    case Operation::product: return "a × b";
    case Operation::apart: return "|a − b|";
    case Operation::cosine: return "cos a";
    case Operation::arccosine: return "arccos a";
    case Operation::amplitude: return say("pictures.definition.lobes", {}, language);
    case Operation::at:
    case Operation::of: return each.parts.empty() ? "" : formula(each.parts.front(), language);
    case Operation::size:
    case Operation::place:
    case Operation::number:
    case Operation::length:
    case Operation::neighbour_rule:
    case Operation::twist:
    case Operation::off_plane: return "";
  }
  return "";
}

std::vector<std::size_t> marked_stations(const Layout& layout, const Looked& looked) {
  std::vector<std::size_t> out;
  for (std::size_t s = 0; s < layout.stations.size(); ++s) {
    for (std::size_t d = 0; d < layout.directions.size(); ++d) {
      if (!looked.cells[layout.cell(s, d)]) continue;
      out.push_back(s);
      break;
    }
  }
  return out;
}
std::vector<std::size_t> marked_directions(const Layout& layout, const Looked& looked) {
  std::vector<std::size_t> out;
  for (std::size_t d = 0; d < layout.directions.size(); ++d) {
    for (std::size_t s = 0; s < layout.stations.size(); ++s) {
      if (!looked.cells[layout.cell(s, d)]) continue;
      out.push_back(d);
      break;
    }
  }
  return out;
}

double height_of(const Layout& layout, std::size_t station) {
  const std::size_t count = layout.stations.size();
  return count < 2 ? (kTop + kBottom) / 2.0 : kTop + (kBottom - kTop) * static_cast<double>(station) / static_cast<double>(count - 1);
}

bool holds(const std::vector<std::size_t>& list, std::size_t value) { return std::find(list.begin(), list.end(), value) != list.end(); }

/// Across a hole from inside, across a shaft from outside.
void reading_across(Sketch& sketch, double y, bool inside) {
  if (inside) {
    const double middle = (kLeft + kRight) / 2.0;
    sketch.arrow({middle, y}, {kLeft, y}, Ink::here, 1.6, 6.0);
    sketch.arrow({middle, y}, {kRight, y}, Ink::here, 1.6, 6.0);
  } else {
    sketch.arrow({kLeft - kWall, y}, {kLeft, y}, Ink::here, 1.6, 6.0);
    sketch.arrow({kRight + kWall, y}, {kRight, y}, Ink::here, 1.6, 6.0);
  }
}

void side_view(Sketch& sketch, const Layout& layout, const Looked& looked, bool inside) {
  const double high = kTop - 10.0;
  const double low = kBottom + 10.0;
  if (inside) {
    for (const double wall : {kLeft - kWall, kRight}) {
      sketch.hatch({wall, high}, kWall, low - high, Ink::faint);
      sketch.rect({wall, high}, kWall, low - high, std::nullopt, Ink::faint);
    }
    sketch.line({kLeft, high}, {kLeft, low}, Ink::ink, 1.6);
    sketch.line({kRight, high}, {kRight, low}, Ink::ink, 1.6);
  } else {
    sketch.rect({kLeft, high}, kRight - kLeft, low - high, std::nullopt, Ink::ink, 1.6);
  }
  const std::vector<std::size_t> marked = marked_stations(layout, looked);
  for (std::size_t s = 0; s < layout.stations.size(); ++s) {
    const double y = height_of(layout, s);
    if (holds(marked, s)) {
      reading_across(sketch, y, inside);
    } else {
      sketch.line({kLeft, y}, {kRight, y}, Ink::faint, 1.0, Dash::dotted);
    }
  }
  if (!looked.heights || marked.size() < 2) return;
  const double x = kRight + kWall + 6.0;
  const Point top{x, height_of(layout, marked.front())};
  const Point bottom{x, height_of(layout, marked.back())};
  sketch.arrow(bottom, top, Ink::here, 1.6, 6.0);
  if (!looked.with_sign) sketch.arrow(top, bottom, Ink::here, 1.6, 6.0);
}

void end_view(Sketch& sketch, const Layout& layout, const Looked& looked, bool inside) {
  sketch.circle(kEnd, kRadius, std::nullopt, Ink::ink, 1.6);
  if (inside) sketch.circle(kEnd, kRadius + 5.0, std::nullopt, Ink::faint);
  const std::vector<std::size_t> marked = marked_directions(layout, looked);
  for (std::size_t d = 0; d < layout.directions.size(); ++d) {
    const double degrees = layout.directions[d].angle_degrees.to_double();
    const Point one = circle_point(kEnd, kRadius, degrees);
    const Point other = circle_point(kEnd, kRadius, degrees + 180.0);
    if (holds(marked, d)) {
      sketch.line(one, other, Ink::here, 1.6);
      sketch.circle(one, 2.5, Ink::here);
      sketch.circle(other, 2.5, Ink::here);
    } else {
      sketch.line(one, other, Ink::faint, 1.0, Dash::dotted);
    }
  }
  if (looked.across && marked.size() > 1) {
    sketch.arc(kEnd, kRadius / 2.0, layout.directions[marked.front()].angle_degrees.to_double(), layout.directions[marked.back()].angle_degrees.to_double(), Ink::here, 1.6);
  }
}

/// A part inside another: the gap is what counts.
void gap_view(Sketch& sketch) {
  const double high = kTop - 10.0;
  const double low = kBottom + 10.0;
  for (const double wall : {kLeft - kWall, kRight + 14.0}) {
    sketch.hatch({wall, high}, kWall, low - high, Ink::faint);
    sketch.rect({wall, high}, kWall, low - high, std::nullopt, Ink::ink, 1.6);
  }
  sketch.rect({kLeft + 14.0, high + 6.0}, kRight - kLeft - 14.0, low - high - 12.0, std::nullopt, Ink::ink, 1.6);
  const double y = (high + low) / 2.0;
  for (const double gap : {kLeft, kRight}) {
    sketch.arrow({gap + 7.0, y}, {gap, y}, Ink::here, 1.6, 5.0);
    sketch.arrow({gap + 7.0, y}, {gap + 14.0, y}, Ink::here, 1.6, 5.0);
  }
}

/// Places in a row, those that count filled.
void places_view(Sketch& sketch, const Layout& layout, const Looked& looked) {
  constexpr double kBox = 12.0;
  constexpr std::size_t kInARow = 5;
  const std::vector<std::size_t> marked = marked_stations(layout, looked);
  const std::size_t shown = std::min(layout.stations.size(), kInARow * 4);
  for (std::size_t s = 0; s < shown; ++s) {
    const Point corner{8.0 + static_cast<double>(s % kInARow) * (kBox + 4.0), 8.0 + static_cast<double>(s / kInARow) * (kBox + 6.0)};
    sketch.rect(corner, kBox, kBox, holds(marked, s) ? std::optional(Ink::here) : std::nullopt, Ink::ink);
  }
}

}  // namespace

Drawing definition_sketch(const Kind& kind, const Definition& definition, const std::string& name, Language language) {
  Sketch sketch(kWidth, kHeight);
  const Reckoning* reckoning = definition.reckoning(kind.feature);
  const Looked looked = reckoning == nullptr ? nothing_looked_at(kind.layout) : Walk(kind.layout).run(reckoning->expression);
  const bool round = kind.feature != Feature::figure;
  if (!kind.members.empty()) {
    gap_view(sketch);
  } else if (round) {
    side_view(sketch, kind.layout, looked, kind.feature == Feature::inside);
    end_view(sketch, kind.layout, looked, kind.feature == Feature::inside);
  } else {
    places_view(sketch, kind.layout, looked);
  }
  // Below the view from the end, in two lines if need be.
  if (reckoning != nullptr) (void)sketch.short_box({kWidth - kFormulaWidth, kEnd.y + kRadius + 6.0}, kFormulaWidth, formula(reckoning->expression, language), kFormula, 2);
  const auto number = [](std::size_t value) { return static_cast<std::int64_t>(value); };
  return std::move(sketch).done(name, say("pictures.definition", {count("heights", number(marked_stations(kind.layout, looked).size())), count("of", number(kind.layout.stations.size())),
                                                                  count("directions", number(marked_directions(kind.layout, looked).size())), count("across", number(kind.layout.directions.size()))}, language));
}

}  // namespace fettle
