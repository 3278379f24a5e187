#pragma once

#include <string>

#include "catalogue/layout.h"

namespace fettle {

/// A kind of part: data, not code. Bore 2 and bore 3 are parts of the kind "cylinder-bore".
struct Kind {
  std::string id;  ///< text key "kind." + id
  Feature feature;
  std::string material;  ///< id of the default material; a job may name another
  Layout layout;         ///< default places; a job may replace stations (with depths) and directions
  std::string origin;
  bool operator==(const Kind&) const = default;
};

}  // namespace fettle
