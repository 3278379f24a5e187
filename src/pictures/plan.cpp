#include <algorithm>
#include <cmath>
#include <numbers>

#include "drawing/circle_point.h"
#include "pictures/figure_plan.h"
#include "pictures/place_marks.h"
#include "pictures/section_plan.h"

namespace fettle {
namespace {

constexpr double kPlanNames = 84.0;  ///< base line of the name below the circle
constexpr double kPlanSide = 82.0;   ///< where the name beside it begins

/// Degrees clockwise from straight up at which the direction lies in the plan.
double plan_degrees(const PartToDraw& part, std::size_t direction) {
  const double angle = part.layout.directions[direction].angle_degrees.to_double();
  return shape_of(part) == PartShapeSeen::piston ? angle + 90.0 : angle;
}

/// Beside the circle there is little room: a name that has a break for it in the text files takes it, two words take two lines, and a
/// long word alone is cut.
void add_side_name(Sketch& sketch, Point middle, const Direction& direction, Language language) {
  const double room = kPlanWidth - kPlanSide - 1.0;
  const std::vector<std::string> lines = narrow_direction_words(direction, language);
  const std::string& words = lines.front();
  if (lines.size() == 2) {
    sketch.text_within({middle.x, middle.y - 3.0}, lines[0], kPlaceName, room);
    sketch.text_within({middle.x, middle.y + 12.0}, lines[1], kPlaceName, room);
    return;
  }
  const bool several = words.find(' ') != std::string::npos;
  (void)sketch.short_box({middle.x, middle.y - (several ? 16.0 : 9.0)}, room, words, kPlaceName, several ? 2 : 1);
}

/// The name of 0° below the circle, and of 90° beside it; those between are named where they are lit.
void add_plan_names(Sketch& sketch, const PartToDraw& part, Point centre, double radius, Language language) {
  for (std::size_t d = 0; d < part.layout.directions.size(); ++d) {
    const double degrees = plan_degrees(part, d);
    const Point from = circle_point(centre, radius, degrees);
    const Point to = circle_point(centre, radius, degrees + 180.0);
    sketch.line(from, to, Ink::faint, 1.0, Dash::dashed);
    const double across = std::fabs(std::sin(degrees * std::numbers::pi / 180.0));
    const std::string words = direction_words(part.layout.directions[d], language);
    Type name = kPlaceName;
    if (across < 0.01) {
      name.anchor = Anchor::middle;
      const double half = std::min(width_of(words, name), kPlanWidth - 4.0) / 2.0;
      sketch.text_within({std::max(centre.x, half + 2.0), kPlanNames}, words, name, kPlanWidth - 4.0);
    } else if (across > 0.99) {
      add_side_name(sketch, {kPlanSide, centre.y}, part.layout.directions[d], language);
    }
  }
}

/// Of what has no round shape: the names of what is read at each station, under each other.
Drawing table_plan(const PartToDraw& part, Language language) {
  const double step = std::min(18.0, (kPlanHeight - 4.0) / static_cast<double>(part.layout.directions.size()));
  Sketch sketch(kPlanWidth, kPlanHeight);
  std::vector<double> middles;
  for (std::size_t d = 0; d < part.layout.directions.size(); ++d) middles.push_back(2.0 + step * (static_cast<double>(d) + 0.5));
  const std::vector<bool> shown = names_shown(middles, kLeastPitch);
  for (std::size_t d = 0; d < middles.size(); ++d) {
    if (shown[d]) {
      sketch.text_within({4.0, middles[d] + 4.0}, direction_words(part.layout.directions[d], language), kPlaceName, kPlanWidth - 8.0);
    }
  }
  const auto lit = [&](std::size_t, std::size_t d) {
    const double y = std::clamp(middles[d], 7.5, kPlanHeight - 7.5);
    const Band band = band_to_clear(middles, shown, y);
    sketch.rect({0.0, band.high}, kPlanWidth, band.low - band.high, Ink::paper);
    sketch.text_within({4.0, y + 4.0}, direction_words(part.layout.directions[d], language), kLitName, kPlanWidth - 8.0);
  };
  add_places(sketch, part, [](std::size_t, std::size_t) {}, lit);
  return std::move(sketch).done(say("pictures.plan.title", {verbatim("part", part.name)}, language), places_description(part, language));
}

}  // namespace

Drawing plan_picture(const PartToDraw& part, Language language) {
  if (const auto seen = figure_seen(part)) return figure_plan(part, *seen, language);
  if (shape_of(part) == PartShapeSeen::table) return table_plan(part, language);
  const PartShapeSeen outline = shape_of(part);
  const Point centre = {44.0, 37.0};
  // A micrometer's faces come from outside and need room.
  const double radius = outline == PartShapeSeen::bore ? 28.0 : 22.0;
  Sketch sketch(kPlanWidth, kPlanHeight);
  sketch.circle(centre, radius, std::nullopt, Ink::ink, 1.6);
  if (outline == PartShapeSeen::bore) sketch.circle(centre, radius + 5.0, std::nullopt, Ink::faint, 1.0);
  if (outline == PartShapeSeen::piston) {  // the pin lies across 0°
    sketch.line({centre.x - 6.0, centre.y - radius + 1.0}, {centre.x - 6.0, centre.y + radius - 1.0}, Ink::faint);
    sketch.line({centre.x + 6.0, centre.y - radius + 1.0}, {centre.x + 6.0, centre.y + radius - 1.0}, Ink::faint);
  }
  add_plan_names(sketch, part, centre, radius, language);
  if (outline == PartShapeSeen::bore && part.thrust_side) {
    const Type caption = {11.0, Ink::faint, Anchor::middle};
    (void)sketch.short_box({1.0, kPlanNames + 4.0}, kPlanWidth - 2.0,
                           say("pictures.stand.short", {verbatim("side", *part.thrust_side)}, language), caption, 2);
  }
  // A tap on the plan would not tell which height is meant: targets are in the section.
  const auto target = [](std::size_t, std::size_t) {};
  const auto lit = [&](std::size_t, std::size_t d) {
    add_gauge(sketch, centre, radius - 1.0, plan_degrees(part, d), outline != PartShapeSeen::bore);
    sketch.rect({0.0, kPlanNames - 11.0}, kPlanWidth, 14.0, Ink::paper);
    Type name = kLitName;
    name.anchor = Anchor::middle;
    sketch.text_within({kPlanWidth / 2.0, kPlanNames}, direction_words(part.layout.directions[d], language), name,
                       kPlanWidth - 4.0);
  };
  add_places(sketch, part, target, lit);
  return std::move(sketch).done(say("pictures.plan.title", {verbatim("part", part.name)}, language),
                                places_description(part, language));
}

}  // namespace fettle
