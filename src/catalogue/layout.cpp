#include "catalogue/layout.h"

#include <algorithm>

#include "catalogue/file_words.h"

namespace fettle {
namespace {

template <class T>
std::optional<std::size_t> index_of(const std::vector<T>& items, std::string_view id) {
  const auto found = std::find_if(items.begin(), items.end(), [&](const T& item) { return item.id == id; });
  if (found == items.end()) return std::nullopt;
  return static_cast<std::size_t>(found - items.begin());
}

template <class T>
void refuse_twice(const std::vector<T>& items, const Place& place, Problems& problems) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (index_of(items, items[i].id) != i) {
      problems.push_back(Problem{"catalogue.id_twice", place, {verbatim("id", items[i].id)}});
    }
  }
}

std::vector<std::size_t> stations_with(const Layout& layout, StationRole role) {
  std::vector<std::size_t> out;
  for (std::size_t i = 0; i < layout.stations.size(); ++i) {
    if (layout.stations[i].role == role) out.push_back(i);
  }
  return out;
}

Argument role_argument(StationRole role) { return word("role", "station." + std::string(role_name(role))); }

void check_roles(const Layout& layout, const Place& place, Problems& problems) {
  std::optional<std::size_t> before;
  for (StationRole role : {StationRole::first, StationRole::middle, StationRole::last}) {
    const auto found = stations_with(layout, role);
    if (found.size() > 1) {
      problems.push_back(Problem{"catalogue.layout_role_twice", place, {role_argument(role)}});
    } else if (found.size() == 1) {
      if (before && found.front() < *before) {
        problems.push_back(Problem{"catalogue.layout_order", place, {verbatim("id", layout.stations[found.front()].id)}});
      }
      before = found.front();
    }
  }
  for (const Station& station : layout.stations) {
    if (station.role == StationRole::reference && station.counted) {
      problems.push_back(Problem{"catalogue.layout_reference_counted", place, {verbatim("id", station.id)}});
    }
  }
}

void check_depths(const Layout& layout, const Place& place, Problems& problems) {
  std::optional<Length> before;
  for (const Station& station : layout.stations) {
    if (!station.counted || !station.depth) continue;
    if (before && *station.depth <= *before) {
      problems.push_back(Problem{"catalogue.layout_depth", place, {verbatim("id", station.id)}});
    }
    before = station.depth;
  }
}

void check_angles(const Layout& layout, const Place& place, Problems& problems) {
  for (std::size_t i = 0; i < layout.directions.size(); ++i) {
    const Direction& direction = layout.directions[i];
    if (direction.angle_degrees.sign() < 0 || direction.angle_degrees >= Ratio(180)) {
      problems.push_back(Problem{"catalogue.layout_angle", place, {verbatim("id", direction.id)}});
    }
    for (std::size_t k = 0; k < i; ++k) {
      if (layout.directions[k].angle_degrees == direction.angle_degrees) {
        problems.push_back(Problem{"catalogue.layout_angle_twice", place,
                                   {verbatim("id", direction.id), verbatim("other", layout.directions[k].id)}});
      }
    }
  }
}

}  // namespace

std::optional<std::size_t> Layout::find_station(std::string_view id) const {
  const auto found = std::find_if(stations.begin(), stations.end(), [&](const Station& each) { return each.member.empty() && each.id == id; });
  if (found == stations.end()) return std::nullopt;
  return static_cast<std::size_t>(found - stations.begin());
}

std::optional<std::size_t> Layout::find_direction(std::string_view id) const { return index_of(directions, id); }

std::optional<std::size_t> Layout::find_axis(Axis axis) const {
  const Ratio wanted = angle_of(axis);
  for (std::size_t i = 0; i < directions.size(); ++i) {
    if (directions[i].angle_degrees == wanted) return i;
  }
  return std::nullopt;
}

bool Layout::counts(StationRole role) const {
  return std::any_of(stations.begin(), stations.end(), [&](const Station& each) { return each.counted && each.role == role; });
}

bool Layout::counts(Axis axis) const {
  return std::any_of(directions.begin(), directions.end(), [&](const Direction& each) { return each.counted && each.angle_degrees == angle_of(axis); });
}

Problems layout_problems(const Layout& layout, const Place& place) {
  Problems problems;
  if (layout.stations.empty()) problems.push_back(Problem{"catalogue.layout_no_stations", place, {}});
  if (layout.directions.empty()) problems.push_back(Problem{"catalogue.layout_no_directions", place, {}});
  refuse_twice(layout.stations, place, problems);
  refuse_twice(layout.directions, place, problems);
  check_roles(layout, place, problems);
  check_depths(layout, place, problems);
  check_angles(layout, place, problems);
  return problems;
}

Ratio angle_of(Axis axis) {
  switch (axis) {
    case Axis::main: return Ratio(0);
    case Axis::cross: return Ratio(90);
  }
  return Ratio();
}

std::string_view feature_name(Feature feature) {
  switch (feature) {
    case Feature::inside: return "inside";
    case Feature::outside: return "outside";
    case Feature::figure: return "figure";
  }
  return "";
}

std::string_view role_name(StationRole role) {
  switch (role) {
    case StationRole::first: return "first";
    case StationRole::middle: return "middle";
    case StationRole::last: return "last";
    case StationRole::inner: return "inner";
    case StationRole::reference: return "reference";
  }
  return "";
}

std::string_view axis_name(Axis axis) {
  switch (axis) {
    case Axis::main: return "main";
    case Axis::cross: return "cross";
  }
  return "";
}

std::optional<StationRole> find_role(std::string_view name) { return value_of(kRoles, name); }

}  // namespace fettle
