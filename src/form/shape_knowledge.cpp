#include "form/shape_knowledge.h"

#include <algorithm>

#include "numeric/elementary.h"

namespace fettle {
namespace {

constexpr double kReferenceOutside = 0.25;

std::vector<double> by_depth(const Layout& layout) {
  std::optional<double> first;
  double last = 0.0;
  for (const Station& station : layout.stations) {
    if (!station.counted) continue;
    last = station.depth->ratio().to_double();
    if (!first) first = last;
  }
  const double stroke = first && last > *first ? last - *first : 1.0;
  std::vector<double> heights;
  for (const Station& station : layout.stations) {
    heights.push_back((station.depth->ratio().to_double() - first.value_or(0.0)) / stroke);
  }
  return heights;
}

std::vector<double> evenly(const Layout& layout) {
  const auto counted = std::count_if(layout.stations.begin(), layout.stations.end(), [](const auto& each) { return each.counted; });
  const double step = counted > 1 ? 1.0 / static_cast<double>(counted - 1) : 1.0;
  std::vector<double> heights;
  double next = 0.0;
  for (const Station& station : layout.stations) {
    if (station.counted) {
      heights.push_back(next);
      next += step;
    } else {
      heights.push_back(next == 0.0 ? -kReferenceOutside : next - step + kReferenceOutside);
    }
  }
  return heights;
}

}  // namespace

bool learns_its_profile(WearPattern pattern) {
  switch (pattern) {
    case WearPattern::from_first:
    case WearPattern::both_ends: return true;
    case WearPattern::none:
    case WearPattern::even: return false;
  }
  return false;
}

double textbook_wear(WearPattern pattern, double height, double strokes) {
  switch (pattern) {
    case WearPattern::from_first: return exponential(-std::max(height, 0.0) / strokes);
    case WearPattern::both_ends: {
      const double h = std::clamp(height, 0.0, 1.0);
      return (exponential(-h / strokes) + exponential(-(1.0 - h) / strokes)) / (1.0 + exponential(-1.0 / strokes));
    }
    case WearPattern::none:
    case WearPattern::even: return 1.0;
  }
  return 1.0;
}

std::vector<double> station_heights(const Layout& layout) {
  const bool depths = std::all_of(layout.stations.begin(), layout.stations.end(), [](const auto& each) { return each.depth.has_value(); });
  const auto counted = std::count_if(layout.stations.begin(), layout.stations.end(), [](const auto& each) { return each.counted; });
  return depths && counted > 1 ? by_depth(layout) : evenly(layout);
}

}  // namespace fettle
