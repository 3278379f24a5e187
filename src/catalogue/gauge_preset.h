#pragma once

#include <optional>
#include <string>
#include <vector>

#include "catalogue/layout.h"
#include "catalogue/material.h"
#include "units/quantity.h"

namespace fettle {

/// direct: shows the size. comparison: is set on a master and shows the deviation from it.
enum class GaugeAction { direct, comparison };

/// What a comparison gauge can be set on.
enum class MasterKind { micrometer, ring, blocks };

/// What a component has in common: all settings made from one master; all readings under one setting; all readings of one round;
/// nothing.
enum class ErrorScope { master, setting, round, reading };

enum class ErrorShape { normal, rectangular, triangular };

/// When a component counts: always; only when the gauge is read on the part; only when it lends its size to another gauge.
enum class ComponentUse { always, read_on_part, lent_as_master };

/// One honest reason why a gauge is not exact.
struct ErrorComponent {
  std::string id;  ///< text key "error." + id
  ErrorScope scope;
  ErrorShape shape;
  /// Half-width of a rectangular or triangular spread, standard uncertainty of a normal one: a length, dial divisions, or a
  /// temperature difference.
  Quantity spread;
  std::string spread_as_typed;
  std::optional<int> degrees_of_freedom;  ///< of the spread; not known: taken as exactly known
  ComponentUse use;
  std::optional<MasterKind> set_on;  ///< counts only when the gauge was set on such a master
  Mark mark;
  std::string origin;

  /// Standard uncertainty in the unit of `spread`: a/√3, a/√6 or the spread itself (JCGM 100, 4.3.7 and 4.3.9).
  [[nodiscard]] double standard_uncertainty() const;
  bool operator==(const ErrorComponent&) const = default;
};

/// A kind of gauge with the errors that a sound specimen has. A job may change every figure.
struct GaugePreset {
  std::string id;  ///< text key "gauge_preset." + id
  GaugeAction action;
  std::optional<Feature> touches;        ///< nothing: only a master
  std::optional<Quantity> division;      ///< one division of thimble or dial, a length; nothing for a ring or blocks
  std::optional<Length> range_from;
  std::optional<Length> range_to;
  std::optional<Length> turn;            ///< one turn of the needle; past it the reading is ambiguous by a turn
  std::optional<Length> travel;          ///< of the sprung contact
  std::optional<MasterKind> serves_as;   ///< can lend its size to a comparison gauge
  std::vector<ErrorComponent> components;
  Dimension measures = Dimension::length;
  bool both_ways = false;  ///< a direct gauge that shows figures on either side of nothing: a height above or below its datum
  bool operator==(const GaugePreset&) const = default;
};

/// +1 if pressing the sprung contact in means a larger part (outside), -1 if it means a smaller one (inside); 0 for a figure.
[[nodiscard]] int size_per_press(Feature touches);

[[nodiscard]] std::string_view scope_name(ErrorScope scope);
[[nodiscard]] std::string_view shape_name(ErrorShape shape);
[[nodiscard]] std::string_view master_kind_name(MasterKind kind);
[[nodiscard]] std::optional<ErrorScope> find_scope(std::string_view name);
[[nodiscard]] std::optional<ErrorShape> find_shape(std::string_view name);

}  // namespace fettle
