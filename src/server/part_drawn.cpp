#include "server/part_drawn.h"

#include <map>

#include "app/part_words.h"
#include "catalogue/catalogue.h"
#include "drawing/svg.h"
#include "pictures/face_map.h"
#include "pictures/run_out.h"
#include "pictures/wear_map.h"

namespace fettle {
namespace {

const PartEstimate* estimate_of(const JudgedJob& judged, const std::string& part) {
  for (const GroupEstimate& group : judged.groups) {
    for (const PartEstimate& each : group.parts) {
      if (each.part == part) return &each;
    }
  }
  return nullptr;
}

/// mm by cell, of lengths.
std::vector<std::optional<double>> read_at(const PartOnBench& part, const PartEstimate& estimate) {
  constexpr auto kCountsPerMm = static_cast<double>(Length::kCountsPerMillimetre);
  std::vector<std::optional<double>> out(part.layout.cells());
  for (const auto& place : estimate.places) {
    if (place && part.layout.quantity(place->cell) == Dimension::length) out[place->cell] = place->as_measured.to_double() / kCountsPerMm;
  }
  return out;
}

RunOutToDraw clock_of(const PartOnBench& part, const PartEstimate& estimate, const std::string& name, const DrawnFor& drawn) {
  constexpr double kDegreesAnHour = 30.0;
  static const std::map<std::string, double> kHours = {{"clock-12", 0.0}, {"clock-3", 3.0}, {"clock-6", 6.0}, {"clock-9", 9.0}};
  RunOutToDraw out{name, {}, drawn.unit};
  const auto read = read_at(part, estimate);
  for (std::size_t station = 0; station < part.layout.stations.size(); ++station) {
    const auto hour = kHours.find(part.layout.stations[station].id);
    if (hour == kHours.end()) continue;
    out.readings.push_back({drawn.words.say(Message{"cell", {station_argument("word", hour->first)}}), kDegreesAnHour * hour->second, read[part.layout.cell(station, 0)]});
  }
  return out;
}

}  // namespace

std::optional<std::string> part_drawn(const JudgedJob& judged, const PartOnBench& part, const DrawnFor& drawn) {
  const PartEstimate* estimate = estimate_of(judged, part.part.id);
  if (estimate == nullptr || part.part.members) return std::nullopt;
  const std::string name = drawn.words.title(part_message(part.part));
  const Language language = drawn.words.language();
  std::optional<Drawing> drawing;
  if (part.feature != Feature::figure && part.part.condition == Condition::worn) {
    drawing = wear_map_picture(wear_of(name, part.feature, part.layout, *estimate, drawn.unit), language);
  } else if (part.part.kind == "face") {
    drawing = face_map_picture({name, part.layout, read_at(part, *estimate), drawn.unit}, language);
  } else if (part.part.kind == "clock-face") {
    drawing = run_out_picture(clock_of(part, *estimate, name, drawn), language);
  }
  if (!drawing) return std::nullopt;
  return svg(*drawing, {SvgPalette::page, drawn.id});
}

}  // namespace fettle
