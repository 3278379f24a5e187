#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/remembered.h"
#include "form/group_estimate.h"
#include "form/shape_take.h"

namespace fettle {

/// What the book says that parts of the kind are made to, at their standard size.
struct MadeTo {
  std::optional<Length> smallest;  ///< new
  std::optional<Length> largest;
  std::optional<Length> standard;
};

/// Estimates of earlier judgements, by all that they depend on.
using ShapeMemory = Remembered<GroupReadings, TakenGroup>;

/// Estimates the worn parts by the shape model, those of one kind and step together, and all others (freshly machined, new, sleeved,
/// not read, of a kind without a pattern of wear) plainly, each place by itself. Groups in the order of their first part. Falls back step
/// by step where the readings do not look like wear, each step named in `said` of its group: a reading that stands out is left out and
/// asked for again; a part that is unlike the others is estimated alone; the group's level and shape are set free; at last the plain
/// estimate, without chances. Error sources that groups share are combined as Gaussians: every group hears what the others say of them.
/// Kept by ShapeEstimate.*.
[[nodiscard]] std::vector<GroupEstimate> estimate_groups(const std::vector<PartOnBench>& parts, const SizeSet& set,
                                                         const std::map<std::string, MadeTo>& made, ShapeMemory& memory);

}  // namespace fettle
