#include "form/shape_known.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace fettle {
namespace {

/// Past this a group of unknown step is taken to stand at a step of its own.
constexpr double kOtherStepUm = 150.0;

/// The least worn place that was read: where the level of the group shows best.
double least_worn_mm(const std::vector<const PartOnBench*>& parts, const SizeSet& set) {
  const double sign = parts.front()->feature == Feature::inside ? 1.0 : -1.0;
  std::vector<double> by_part;
  for (const PartOnBench* part : parts) {
    std::optional<double> least;
    for (const Size& size : set.sizes) {
      if (size.part == part->part.id) least = std::min(least.value_or(1e300), sign * size.estimate);
    }
    if (least) by_part.push_back(*least);
  }
  std::sort(by_part.begin(), by_part.end());
  return sign * by_part[by_part.size() / 2];
}

void place_level(const Part& part, double least_mm, const MadeTo& made, KnownGroup& known) {
  const double step_mm = exact_length(part.step.offset).value_or(Length()).millimetres();
  if (made.smallest && made.largest && *made.smallest < *made.largest) {
    const double low = made.smallest->millimetres();
    const double high = made.largest->millimetres();
    known.origin.base_mm = (low + high) / 2.0 + step_mm;
    known.knowledge.tolerance_um = (high - low) * 1000.0;
  } else {
    known.origin.base_mm = made.standard ? made.standard->millimetres() + step_mm : least_mm;
  }
  if (part.step.kind == StepKind::unknown) {
    known.knowledge.history = SizeHistory::unknown;
    if (std::abs(known.origin.to_um(least_mm)) > kOtherStepUm) {
      known.origin.base_mm = least_mm;
      known.knowledge.tolerance_um.reset();
    }
  }
}

}  // namespace

KnownGroup know_group(const std::vector<const PartOnBench*>& parts, const SizeSet& set, const std::map<std::string, MadeTo>& made) {
  const PartOnBench& first = *parts.front();
  const Layout& layout = first.layout;
  KnownGroup out{{first.wear.pattern, station_heights(layout), {}, {}, false, 0.0, std::nullopt, SizeHistory::stated},
                 {0.0, first.feature == Feature::inside ? 1.0 : -1.0}};
  const std::vector<std::string>& unworn = first.wear.unworn;
  for (const Station& station : layout.stations) {
    const bool idle = std::find(unworn.begin(), unworn.end(), station.id) != unworn.end();
    out.knowledge.wears.push_back(station.role != StationRole::reference && !idle);
  }
  for (const Direction& direction : layout.directions) out.knowledge.angle_degrees.push_back(direction.angle_degrees.to_double());
  std::set<std::size_t> directions;
  for (const Size& size : set.sizes) directions.insert(size.cell % layout.directions.size());
  out.knowledge.three_directions = directions.size() > 2;
  const auto found = made.find(first.part.kind);
  place_level(first.part, least_worn_mm(parts, set), found == made.end() ? MadeTo{} : found->second, out);
  return out;
}

bool estimated_together(const PartOnBench& a, const PartOnBench& b) {
  return a.part.kind == b.part.kind && a.part.step.kind == b.part.step.kind && exact_length(a.part.step.offset) == exact_length(b.part.step.offset) &&
         a.layout == b.layout;
}

}  // namespace fettle
