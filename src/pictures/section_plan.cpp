#include "pictures/section_plan.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/assertion.h"
#include "drawing/circle_point.h"
#include "pictures/layout_places.h"
#include "pictures/sketch.h"

namespace fettle {
namespace {

constexpr double kSectionWidth = 180.0;
constexpr double kPlanWidth = 148.0;
constexpr double kPlanHeight = 120.0;
constexpr double kPlanNames = 84.0;  ///< base line of the name below the circle
constexpr double kPlanSide = 97.0;   ///< where the name beside it begins
constexpr double kLeastPitch = 14.0;  ///< of names under each other
constexpr Type kPlaceName = {};
constexpr Type kLitName = {kPictureText, Ink::here, Anchor::start, Weight::bold};

std::string depth_words(const Station& station, UnitId unit, Language language) {
  if (!station.depth) return "";
  // Depths are typed in whole millimetres or hundredths of an inch; what has more shows it.
  const int most = unit == UnitId::inch ? 3 : 2;
  std::string digits = in_unit(station.depth->ratio(), unit, most);
  if (digits.find('.') != std::string::npos) {
    digits.erase(digits.find_last_not_of('0') + 1);
    if (digits.back() == '.') digits.pop_back();
  }
  return typeset(digits, language) + " " + symbol_of(unit);
}

enum class PartShapeSeen { bore, piston, journal, table };

PartShapeSeen shape_of(const PartToDraw& part) {
  if (part.kind == "piston") return PartShapeSeen::piston;
  switch (part.feature) {
    case Feature::inside: return PartShapeSeen::bore;
    case Feature::outside: return PartShapeSeen::journal;
    case Feature::figure: return PartShapeSeen::table;
  }
  FETTLE_ASSERT(false, "a feature without an outline");
}

/// Which names have room: the first always, each further one that stands `least` from the last shown.
std::vector<bool> names_shown(const std::vector<double>& places, double least) {
  std::vector<bool> out;
  double last = -1e9;
  for (const double place : places) {
    out.push_back(place - last >= least - 1e-9);
    if (out.back()) last = place;
  }
  return out;
}

/// How much of the gauge is seen across the picture: 0 end on, 1 whole.
double seen_across(const PartToDraw& part, std::size_t direction) {
  const double angle = part.layout.directions[direction].angle_degrees.to_double() * std::numbers::pi / 180.0;
  switch (shape_of(part)) {
    case PartShapeSeen::bore: return std::fabs(std::sin(angle));  // 0° points at the person
    case PartShapeSeen::piston:
    case PartShapeSeen::journal: return std::fabs(std::cos(angle));
    case PartShapeSeen::table: return 1.0;
  }
  FETTLE_ASSERT(false, "an outline without a view");
}

/// Degrees clockwise from straight up at which the direction lies in the plan.
double plan_degrees(const PartToDraw& part, std::size_t direction) {
  const double angle = part.layout.directions[direction].angle_degrees.to_double();
  return shape_of(part) == PartShapeSeen::piston ? angle + 90.0 : angle;
}

/// Runs `draw` inside the group of each place that is there, once in its when-lit part.
template <class Targets, class WhenLit>
void add_places(Sketch& sketch, const PartToDraw& part, const Targets& targets, const WhenLit& when_lit) {
  const Layout& layout = part.layout;
  for (std::size_t s = 0; s < layout.stations.size(); ++s) {
    for (std::size_t d = 0; d < layout.directions.size(); ++d) {
      const std::size_t cell = layout.cell(s, d);
      if (!layout.there(cell)) continue;
      const bool lit = part.lit == cell;
      sketch.begin(lit ? "place lit" : "place", layout.stations[s].id + "/" + layout.directions[d].id);
      targets(s, d);
      sketch.begin("when-lit", std::nullopt, !lit);
      when_lit(s, d);
      sketch.end();
      sketch.end();
    }
  }
}

std::string section_description(const PartToDraw& part, Language language) {
  std::vector<std::string> stations;
  for (const Station& each : part.layout.stations) {
    const std::string depth = depth_words(each, part.unit, language);
    stations.push_back(station_words(each, language) + (depth.empty() ? "" : " (" + depth + ")"));
  }
  std::vector<std::string> directions;
  for (const Direction& each : part.layout.directions) directions.push_back(direction_words(each, language));
  std::string out = say("pictures.places", {verbatim("stations", sentences_joined(stations, ", ")),
                                            verbatim("directions", sentences_joined(directions, ", "))}, language);
  if (part.thrust_side) out += " " + say("pictures.stand", {verbatim("side", *part.thrust_side)}, language);
  if (part.lit) {
    const std::size_t n = part.layout.directions.size();
    out += " " + say("pictures.lit", {verbatim("station", station_words(part.layout.stations[*part.lit / n], language)),
                                      verbatim("direction", direction_words(part.layout.directions[*part.lit % n], language))},
                     language);
  }
  return out;
}

/// The blue mark of a gauge that lies across, or is seen end on.
void add_gauge(Sketch& sketch, Point centre, double half, double degrees, bool outside) {
  if (half < 6.0) {  // end on: a ring with a point in it
    sketch.circle(centre, 6.5, Ink::paper, Ink::here, 2.0);
    sketch.circle(centre, 2.5, Ink::here);
    return;
  }
  for (const double turn : {0.0, 180.0}) {
    const Point tip = circle_point(centre, half, degrees + turn);
    if (outside) {  // the faces of a micrometer come from outside
      sketch.arrow(circle_point(centre, half + 14.0, degrees + turn), tip, Ink::here, 3.0, 9.0);
    } else {
      sketch.arrow(centre, tip, Ink::here, 3.0, 9.0);
    }
  }
}

/// Bore and piston: the axis stands upright.
class UprightSection {
 public:
  UprightSection(const PartToDraw& part, Language language)
      : part_(part), language_(language), piston_(shape_of(part) == PartShapeSeen::piston),
        places_(station_places(part.layout, piston_ ? 62.0 : 24.0, piston_ ? 98.0 : 106.0, kLeastPitch)) {}

  [[nodiscard]] Drawing draw(std::string title) && {
    if (piston_) {
      add_piston();
    } else {
      add_bore();
    }
    const std::vector<bool> shown = names_shown(places_, kLeastPitch);
    for (std::size_t s = 0; s < places_.size(); ++s) {
      sketch_.line({kLeft, places_[s]}, {kRight, places_[s]}, Ink::faint, 1.0, Dash::dashed);
      if (!shown[s]) continue;
      Type name = kPlaceName;
      name.anchor = Anchor::end;
      sketch_.text_within({kNameRight, places_[s] + 4.0}, station_words(part_.layout.stations[s], language_), name, kNameRight - 2.0);
      Type depth = {kPictureText, Ink::faint};
      sketch_.text_within({kDepthLeft, places_[s] + 4.0}, depth_words(part_.layout.stations[s], part_.unit, language_), depth,
                          kSectionWidth - kDepthLeft - 1.0);
    }
    add_places(
        sketch_, part_, [&](std::size_t s, std::size_t d) { add_target(s, d); },
        [&](std::size_t s, std::size_t d) { add_lit(s, d); });
    return std::move(sketch_).done(std::move(title), section_description(part_, language_));
  }

 private:
  static constexpr double kLeft = 74.0;
  static constexpr double kRight = 122.0;
  static constexpr double kWall = 8.0;
  static constexpr double kNameRight = kLeft - kWall - 6.0;
  static constexpr double kDepthLeft = kRight + kWall + 4.0;
  static constexpr double kTop = 12.0;
  static constexpr double kBottom = 116.0;

  void add_bore() {
    for (const double left : {kLeft - kWall, kRight}) {
      sketch_.hatch({left, kTop}, kWall, kBottom - kTop, Ink::faint, 5.0);
      sketch_.rect({left, kTop}, kWall, kBottom - kTop, std::nullopt, Ink::ink, 1.2);
    }
    sketch_.line({kLeft - kWall - 4.0, kTop}, {kRight + kWall + 4.0, kTop}, Ink::ink, 2.0);  // the face
  }

  void add_piston() {
    sketch_.area({{kLeft, 14.0}, {kRight, 14.0}, {kRight, 104.0}, {kLeft, 104.0}}, std::nullopt, Ink::ink, 1.4);
    for (const double y : {22.0, 30.0, 38.0}) {
      sketch_.line({kLeft, y}, {kRight, y}, Ink::ink, 2.4);
    }
    sketch_.circle({(kLeft + kRight) / 2.0, 54.0}, 7.0, std::nullopt, Ink::ink, 1.2);
  }

  void add_target(std::size_t s, std::size_t d) {
    const double above = s == 0 ? 0.0 : (places_[s - 1] + places_[s]) / 2.0;
    const double below = s + 1 == places_.size() ? 120.0 : (places_[s] + places_[s + 1]) / 2.0;
    const double share = kSectionWidth / static_cast<double>(part_.layout.directions.size());
    sketch_.rect({share * static_cast<double>(d), above}, share, below - above, std::nullopt);
  }

  void add_lit(std::size_t s, std::size_t d) {
    const double y = places_[s];
    const double middle = (kLeft + kRight) / 2.0;
    const double half = (kRight - kLeft) / 2.0;
    if (!piston_) sketch_.line({middle, 2.0}, {middle, y}, Ink::here, 2.0);
    const double seen = half * seen_across(part_, d);
    sketch_.line({kLeft, y}, {kRight, y}, Ink::here, 1.0);
    add_gauge(sketch_, {middle, y}, seen, 90.0, piston_ && seen >= half - 1.0);
    const double tall = kPictureText + 3.0;
    sketch_.rect({0.0, y - tall / 2.0}, kNameRight + 2.0, tall, Ink::paper);
    Type name = kLitName;
    name.anchor = Anchor::end;
    sketch_.text_within({kNameRight - 5.0, y + 4.0}, station_words(part_.layout.stations[s], language_), name, kNameRight - 6.0);
    sketch_.arrow_head({kLeft - kWall - 1.0, y}, 90.0, 9.0, Ink::here);
  }

  const PartToDraw& part_;
  Language language_;
  bool piston_;
  std::vector<double> places_;
  Sketch sketch_{kSectionWidth, kPlanHeight};
};

/// A shaft, lying.
class LyingSection {
 public:
  LyingSection(const PartToDraw& part, Language language)
      : part_(part), language_(language), places_(station_places(part.layout, 40.0, 140.0, pitch())) {}

  [[nodiscard]] Drawing draw(std::string title) && {
    for (const double left : {12.0, kSectionWidth - 26.0}) {  // the webs
      sketch_.hatch({left, kHigh - 14.0}, 14.0, kLow - kHigh + 28.0, Ink::faint, 5.0);
      sketch_.rect({left, kHigh - 14.0}, 14.0, kLow - kHigh + 28.0, std::nullopt, Ink::ink, 1.2);
    }
    for (const double y : {kHigh, kLow}) sketch_.line({26.0, y}, {kSectionWidth - 26.0, y}, Ink::ink, 1.4);
    const std::vector<bool> shown = names_shown(places_, pitch());
    for (std::size_t s = 0; s < places_.size(); ++s) {
      sketch_.line({places_[s], kHigh}, {places_[s], kLow}, Ink::faint, 1.0, Dash::dashed);
      if (!shown[s]) continue;
      Type name = kPlaceName;
      name.anchor = Anchor::middle;
      sketch_.text_within({places_[s], 11.0}, station_words(part_.layout.stations[s], language_), name, pitch() - 3.0);
      Type depth = {kPictureText, Ink::faint, Anchor::middle};
      sketch_.text_within({places_[s], 116.0}, depth_words(part_.layout.stations[s], part_.unit, language_), depth, pitch() - 3.0);
    }
    add_places(
        sketch_, part_, [&](std::size_t s, std::size_t d) { add_target(s, d); },
        [&](std::size_t s, std::size_t d) { add_lit(s, d); });
    return std::move(sketch_).done(std::move(title), section_description(part_, language_));
  }

 private:
  static constexpr double kHigh = 42.0;
  static constexpr double kLow = 82.0;

  [[nodiscard]] double pitch() const { return part_.layout.stations.size() <= 3 ? 50.0 : 48.0; }

  void add_target(std::size_t s, std::size_t d) {
    const double before = s == 0 ? 0.0 : (places_[s - 1] + places_[s]) / 2.0;
    const double after = s + 1 == places_.size() ? kSectionWidth : (places_[s] + places_[s + 1]) / 2.0;
    const double share = kPlanHeight / static_cast<double>(part_.layout.directions.size());
    sketch_.rect({before, share * static_cast<double>(d)}, after - before, share, std::nullopt);
  }

  void add_lit(std::size_t s, std::size_t d) {
    const double x = places_[s];
    const double half = (kLow - kHigh) / 2.0;
    const double seen = half * seen_across(part_, d);
    sketch_.line({x, kHigh}, {x, kLow}, Ink::here, 1.0);
    add_gauge(sketch_, {x, (kHigh + kLow) / 2.0}, seen, 0.0, true);
    const std::string words = station_words(part_.layout.stations[s], language_);
    const double wide = std::min(kSectionWidth - 4.0, width_of(words, kLitName) + 6.0);
    const double left = std::clamp(x - wide / 2.0, 1.0, kSectionWidth - 1.0 - wide);
    sketch_.rect({0.0, 0.0}, kSectionWidth, 15.0, Ink::paper);
    Type name = kLitName;
    name.anchor = Anchor::middle;
    sketch_.text_within({left + wide / 2.0, 11.0}, words, name, wide);
    sketch_.arrow_head({x, 24.0}, 180.0, 9.0, Ink::here);
  }

  const PartToDraw& part_;
  Language language_;
  std::vector<double> places_;
  Sketch sketch_{kSectionWidth, kPlanHeight};
};

/// What has no round shape: a box for each place, named by its row.
Drawing table_section(const PartToDraw& part, std::string title, Language language) {
  const std::size_t rows = part.layout.stations.size();
  const std::size_t columns = part.layout.directions.size();
  const double step = std::min(24.0, 116.0 / static_cast<double>(rows));
  const double wide = std::min(30.0, 72.0 / static_cast<double>(columns));
  const auto left_of = [&](std::size_t d) { return 180.0 - 2.0 - wide * static_cast<double>(columns - d); };
  Sketch sketch(kSectionWidth, kPlanHeight);
  std::vector<double> middles;
  for (std::size_t s = 0; s < rows; ++s) middles.push_back(2.0 + step * (static_cast<double>(s) + 0.5));
  const std::vector<bool> shown = names_shown(middles, kLeastPitch);
  for (std::size_t s = 0; s < rows; ++s) {
    for (std::size_t d = 0; d < columns; ++d) {
      if (part.layout.there(part.layout.cell(s, d))) {
        sketch.rect({left_of(d) + 1.0, middles[s] - step / 2.0 + 1.0}, wide - 2.0, step - 2.0, std::nullopt, Ink::faint);
      }
    }
    if (shown[s]) {
      sketch.text_within({2.0, middles[s] + 4.0}, station_words(part.layout.stations[s], language), kPlaceName, left_of(0) - 6.0);
    }
  }
  const auto target = [&](std::size_t s, std::size_t d) {
    const double left = d == 0 ? 0.0 : left_of(d);
    sketch.rect({left, middles[s] - step / 2.0}, left_of(d) + wide - left, step, std::nullopt);
  };
  const auto lit = [&](std::size_t s, std::size_t d) {
    sketch.rect({left_of(d) + 1.0, middles[s] - step / 2.0 + 1.0}, wide - 2.0, step - 2.0, Ink::here);
    const double tall = kPictureText + 3.0;
    const double y = std::clamp(middles[s], tall / 2.0, kPlanHeight - tall / 2.0);
    sketch.rect({0.0, y - tall / 2.0}, left_of(0) - 2.0, tall, Ink::paper);
    sketch.text_within({2.0, y + 4.0}, station_words(part.layout.stations[s], language), kLitName, left_of(0) - 6.0);
  };
  add_places(sketch, part, target, lit);
  return std::move(sketch).done(std::move(title), section_description(part, language));
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
      sketch.text_within({centre.x, kPlanNames}, words, name, 2.0 * centre.x - 4.0);
    } else if (across > 0.99) {
      sketch.text_within({kPlanSide, centre.y + 4.0}, words, name, kPlanWidth - kPlanSide - 1.0);
    }
  }
}

}  // namespace

Drawing section_picture(const PartToDraw& part, Language language) {
  std::string title = say("pictures.section.title", {verbatim("part", part.name)}, language);
  switch (shape_of(part)) {
    case PartShapeSeen::bore:
    case PartShapeSeen::piston: return UprightSection(part, language).draw(std::move(title));
    case PartShapeSeen::journal: return LyingSection(part, language).draw(std::move(title));
    case PartShapeSeen::table: return table_section(part, std::move(title), language);
  }
  FETTLE_ASSERT(false, "an outline without a section");
}

Drawing plan_picture(const PartToDraw& part, Language language) {
  const PartShapeSeen outline = shape_of(part);
  const Point centre = {58.0, 37.0};
  // A micrometer's faces come from outside and need room.
  const double radius = outline == PartShapeSeen::bore ? 28.0 : 22.0;
  Sketch sketch(kPlanWidth, kPlanHeight);
  if (outline != PartShapeSeen::table) {
    sketch.circle(centre, radius, std::nullopt, Ink::ink, 1.6);
    if (outline == PartShapeSeen::bore) sketch.circle(centre, radius + 5.0, std::nullopt, Ink::faint, 1.0);
  }
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
                                section_description(part, language));
}

}  // namespace fettle
