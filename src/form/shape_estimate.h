#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/remembered.h"
#include "form/group_estimate.h"
#include "form/shape_known.h"
#include "form/shape_take.h"

namespace fettle {

/// Everything that the estimates by the shape model depend on.
struct ShapeInput {
  std::vector<PartOnBench> parts;           ///< those that go through the model
  std::vector<Size> sizes;                  ///< what was read on them
  std::vector<ErrorSource> sources;         ///< that it rests on
  std::map<std::string, MadeTo> made;       ///< of their kinds
  bool operator==(const ShapeInput&) const = default;
};
struct ShapeOutput {
  std::vector<GroupEstimate> groups;
};

/// Estimates of earlier judgements, by all that they depend on: of all groups together, and of each.
class ShapeMemory {
 public:
  Remembered<ShapeInput, ShapeOutput> all;
  Remembered<GroupReadings, TakenGroup> taken;
  Remembered<GroupReadings, double> evidence;

  /// Where nothing changed in a round, no group was asked for: all are kept.
  void next_round() {
    const bool asked = all.made() != all_before_;
    all_before_ = all.made();
    all.next_round();
    if (!asked) return;
    taken.next_round();
    evidence.next_round();
  }
  /// How many groups had to be estimated.
  [[nodiscard]] std::size_t made() const { return taken.made(); }

 private:
  std::size_t all_before_ = 0;
};

/// Estimates the worn parts by the shape model, those of one kind and step together, and all others (freshly machined, new, sleeved,
/// not read, of a kind without a pattern of wear) plainly, each place by itself. Groups in the order of their first part. Falls back step
/// by step where the readings do not look like wear, each step named in `said` of its group: a reading that stands out is left out and
/// asked for again; a part that is unlike the others is estimated alone; the group's level and shape are set free; at last the plain
/// estimate, without chances. Error sources that groups share are combined as Gaussians: every group hears what the others say of them.
/// Kept by ShapeEstimate.*.
[[nodiscard]] std::vector<GroupEstimate> estimate_groups(const std::vector<PartOnBench>& parts, const SizeSet& set,
                                                         const std::map<std::string, MadeTo>& made, ShapeMemory& memory);

}  // namespace fettle
