#include "catalogue/gauge_preset.h"

#include <cmath>

#include "catalogue/words.h"

namespace fettle {

double ErrorComponent::standard_uncertainty() const {
  const double given = spread.value.to_double();
  switch (shape) {
    case ErrorShape::normal: return given;
    case ErrorShape::rectangular: return given / std::sqrt(3.0);
    case ErrorShape::triangular: return given / std::sqrt(6.0);
  }
  return given;
}

int size_per_press(Feature touches) {
  switch (touches) {
    case Feature::inside: return -1;
    case Feature::outside: return 1;
    case Feature::figure: break;  // no comparison gauge touches a figure from one side
  }
  return 0;
}

std::string_view scope_name(ErrorScope scope) {
  switch (scope) {
    case ErrorScope::master: return "master";
    case ErrorScope::setting: return "setting";
    case ErrorScope::round: return "round";
    case ErrorScope::reading: return "reading";
  }
  return "";
}

std::string_view shape_name(ErrorShape shape) {
  switch (shape) {
    case ErrorShape::normal: return "normal";
    case ErrorShape::rectangular: return "rectangular";
    case ErrorShape::triangular: return "triangular";
  }
  return "";
}

std::string_view master_kind_name(MasterKind kind) {
  switch (kind) {
    case MasterKind::micrometer: return "micrometer";
    case MasterKind::ring: return "ring";
    case MasterKind::blocks: return "blocks";
  }
  return "";
}

std::optional<ErrorScope> find_scope(std::string_view name) {
  for (ErrorScope each : {ErrorScope::master, ErrorScope::setting, ErrorScope::round, ErrorScope::reading}) {
    if (scope_name(each) == name) return each;
  }
  return std::nullopt;
}

std::optional<ErrorShape> find_shape(std::string_view name) {
  for (ErrorShape each : {ErrorShape::normal, ErrorShape::rectangular, ErrorShape::triangular}) {
    if (shape_name(each) == name) return each;
  }
  return std::nullopt;
}

}  // namespace fettle
