#include "gauging/place_names.h"

#include <algorithm>

#include "base/joined.h"

namespace fettle {
std::optional<std::size_t> find_cell(const NamedPlace& named, const Layout& layout, Problems& problems) {
  const auto station = layout.find_station(named.station);
  std::vector<std::size_t> ways;  // how the station can be read; where that is one way only, nobody has to name it
  for (std::size_t d = 0; station && d < layout.directions.size(); ++d) {
    if (layout.there(layout.cell(*station, d))) ways.push_back(d);
  }
  auto direction = named.direction.empty() && ways.size() == 1 ? std::optional(ways.front()) : layout.find_direction(named.direction);
  if (direction && station && std::find(ways.begin(), ways.end(), *direction) == ways.end()) direction.reset();
  if (!station) {
    problems.push_back(Problem{"gauging.unknown_station", named.station_place,
                               {verbatim("station", named.station), verbatim("part", named.part), verbatim("known", joined_ids(layout.stations))}});
  }
  if (!direction) {
    problems.push_back(Problem{"gauging.unknown_direction", named.direction_place,
                               {verbatim("direction", named.direction), verbatim("part", named.part),
                                verbatim("known", joined_ids(layout.directions))}});
  }
  if (!station || !direction) return std::nullopt;
  return layout.cell(*station, *direction);
}

}  // namespace fettle
