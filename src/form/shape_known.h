#pragma once

#include <map>
#include <string>
#include <vector>

#include "form/shape_knowledge.h"
#include "form/shape_rows.h"
#include "gauging/sizes.h"

namespace fettle {

/// What the book says that parts of the kind are made to, at their standard size.
struct MadeTo {
  std::optional<Length> smallest;  ///< new
  std::optional<Length> largest;
  std::optional<Length> standard;
  bool operator==(const MadeTo&) const = default;
};

/// What is known of a group before it is read, and from where the model counts.
struct KnownGroup {
  ShapeKnowledge knowledge;
  ShapeOrigin origin;
};

/// Of parts that are estimated together, one at least, with what was read on them (a size at least); `made` by kind. Where the tolerance is not
/// known, or the step is not and the parts stand far from the standard size, the model counts from the least worn place that was read.
[[nodiscard]] KnownGroup know_group(const std::vector<const PartOnBench*>& parts, const SizeSet& set, const std::map<std::string, MadeTo>& made);

/// Whether two parts are of one group: kind, step and layout are the same.
[[nodiscard]] bool estimated_together(const PartOnBench& a, const PartOnBench& b);

}  // namespace fettle
