#pragma once

#include <string>

#include "base/problem.h"
#include "catalogue/layout.h"

namespace fettle {

/// A place as it is named, and where each name was written.
struct NamedPlace {
  const std::string& part;
  const std::string& station;
  const std::string& direction;
  Place station_place;
  Place direction_place;
};

/// The cell of a layout that is meant. Problems: gauging.unknown_station, gauging.unknown_direction, with the names that are known.
[[nodiscard]] std::optional<std::size_t> find_cell(const NamedPlace& named, const Layout& layout, Problems& problems);

}  // namespace fettle
