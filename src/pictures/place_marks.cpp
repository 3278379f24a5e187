#include "pictures/place_marks.h"

#include <cmath>

#include "base/assertion.h"
#include "drawing/circle_point.h"
#include "units/length.h"

namespace fettle {

PartShapeSeen shape_of(const PartToDraw& part) {
  if (part.kind == "piston") return PartShapeSeen::piston;
  switch (part.feature) {
    case Feature::inside: return PartShapeSeen::bore;
    case Feature::outside: return PartShapeSeen::journal;
    case Feature::figure: return PartShapeSeen::table;
  }
  FETTLE_ASSERT(false, "a feature without an outline");
}

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

std::vector<bool> names_shown(const std::vector<double>& places, double least) {
  std::vector<bool> out;
  double last = -1e9;
  for (const double place : places) {
    out.push_back(place - last >= least - 1e-9);
    if (out.back()) last = place;
  }
  return out;
}

Band band_to_clear(const std::vector<double>& places, const std::vector<bool>& shown, double y) {
  Band band{y - 7.5, y + 7.5};
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (!shown[i] || std::fabs(places[i] - y) >= kLeastPitch - 1e-9) continue;
    band.high = std::min(band.high, places[i] - 7.5);
    band.low = std::max(band.low, places[i] + 7.5);
  }
  return {std::max(0.0, band.high), std::min(kPlanHeight, band.low)};
}

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

std::string places_description(const PartToDraw& part, Language language) {
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

}  // namespace fettle
