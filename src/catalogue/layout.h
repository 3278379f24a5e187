#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"
#include "units/length.h"
#include "units/unit.h"

namespace fettle {

/// Which surface the gauge touches: a bore from inside, a journal from outside. `figure`: neither, as a gap, a height or a clearance.
enum class Feature { inside, outside, figure };

/// The part a station plays in the definitions. `reference` is a place that does not wear (the foot of a bore): it never counts
/// in largest, taper or out-of-round.
enum class StationRole { first, middle, last, inner, reference };

/// The two axes that definitions may name: 0° and 90° of a layout's directions.
enum class Axis { main, cross };

/// One height along the part.
struct Station {
  std::string id;
  StationRole role;
  bool counted;                 ///< enters largest, taper, out-of-round
  std::optional<Length> depth;  ///< along the axis, from the face the job names
  /// In the places of an assembly: which member the station belongs to; empty for the part's own.
  std::string member = {};
  std::optional<Dimension> quantity = {};  ///< what is read there; nothing: a length
  std::optional<std::string> group = {};   ///< lines of one sort on a face ("long")
  std::optional<Length> span = {};         ///< how long such a line is
  bool operator==(const Station&) const = default;
};

/// One direction across the part. `angle_degrees` counts from the kind's main axis, 0 to below 180. A direction that does not
/// count is shown and kept, but enters no definition: the skirt of a piston along its pin is narrower on purpose.
struct Direction {
  std::string id;
  Ratio angle_degrees;
  bool counted;
  std::optional<Dimension> quantity = {};  ///< what is read that way, whatever the station; nothing: what the station says
  std::optional<Length> offset = {};       ///< of a line across a face: how far it lies from the first edge
  bool operator==(const Direction&) const = default;
};

/// The grid of places where a part is read: stations from first to last, times directions.
struct Layout {
  std::vector<Station> stations;
  std::vector<Direction> directions;
  /// In the places of an assembly, by cell: there is no such place, as members have directions of their own. Empty: every cell is there.
  std::vector<bool> absent = {};
  bool operator==(const Layout&) const = default;

  /// Cells are numbered station by station: station · directions + direction.
  [[nodiscard]] std::size_t cell(std::size_t station, std::size_t direction) const {
    return station * directions.size() + direction;
  }
  [[nodiscard]] std::size_t cells() const { return stations.size() * directions.size(); }
  [[nodiscard]] bool there(std::size_t cell) const { return absent.empty() || !absent[cell]; }
  [[nodiscard]] Dimension quantity(std::size_t cell) const {
    const auto& across = directions[cell % directions.size()].quantity;
    return across ? *across : stations[cell / directions.size()].quantity.value_or(Dimension::length);
  }
  /// Among the part's own stations.
  [[nodiscard]] std::optional<std::size_t> find_station(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_direction(std::string_view id) const;
  [[nodiscard]] std::optional<std::size_t> find_axis(Axis axis) const;
  /// Whether a counted station has the role, a counted direction the axis.
  [[nodiscard]] bool counts(StationRole role) const;
  [[nodiscard]] bool counts(Axis axis) const;
};

/// Everything wrong with a layout, all at once: no stations or directions; an id twice; two stations with the role first, middle
/// or last; first, middle and last not in this order; a counted reference; an angle outside [0°, 180°) or twice; depths of the
/// counted stations that do not grow. Codes catalogue.layout_*. Empty if it may be used.
[[nodiscard]] Problems layout_problems(const Layout& layout, const Place& place);

/// 0° or 90°.
[[nodiscard]] Ratio angle_of(Axis axis);

[[nodiscard]] std::string_view feature_name(Feature feature);
[[nodiscard]] std::string_view role_name(StationRole role);
[[nodiscard]] std::string_view axis_name(Axis axis);
[[nodiscard]] std::optional<StationRole> find_role(std::string_view name);

}  // namespace fettle
