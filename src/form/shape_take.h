#pragma once

#include "form/shape_group.h"

namespace fettle {

/// What a group's readings say, all ways to take them weighed together.
struct TakenGroup {
  ShapeGroup group;
  std::vector<double> part_tail;  ///< by part: chance of readings this far from what the others say, with readings that stand out as mistakes
  bool set_free;                  ///< the whole looked unlike wear, so its shape was also left free
  bool fits_nothing;              ///< and even so it fits no shape: no chance may rest on it
  double log_evidence;            ///< `evidence_of` the readings
};

/// Everything that a group's estimate depends on.
struct GroupReadings {
  std::vector<std::string> parts;
  ShapeKnowledge knowledge;
  ShapeOrigin origin;
  ShapeRows rows;
  std::vector<ErrorSource> sources;
  ShapeFreedom freedom;
  bool operator==(const GroupReadings&) const = default;
};

/// Takes the readings as they stand; where one stands out, also as if that one were a mistake, and so on up to four; where the whole looks
/// unlike wear, also with level and shape left free. All of them go into one mixture, weighed by how well they foretell the readings and by
/// how often such things happen. Needs a row at least.
[[nodiscard]] TakenGroup take_readings(const GroupReadings& from);

/// ln of the density of the readings as they stand.
[[nodiscard]] double evidence_of(const ShapeKnowledge& knowledge, const ShapeRows& rows, ShapeFreedom freedom);

}  // namespace fettle
