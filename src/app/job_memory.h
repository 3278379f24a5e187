#pragma once

#include <vector>

#include "base/remembered.h"
#include "form/as_measured.h"
#include "form/group_on_bench.h"
#include "form/part_shape.h"
#include "form/shape_estimate.h"
#include "verdict/judge.h"

namespace fettle {

/// Everything that the figures of a group beside its verdicts depend on.
struct GroupToMeasure {
  GroupOnBench group;
  std::vector<GivenSizes> given;  ///< by part
  UnitId unit;
  bool operator==(const GroupToMeasure&) const = default;
};

struct MeasuredGroup {
  std::vector<AsMeasured> measured;
  std::vector<PartShape> shapes;
};

/// What judging one job has made of its groups, by all that each depends on. Kept by a caller who judges the same job again after an edit:
/// only what the edit touches is made anew, and the result is the same to the bit. An edit can touch more than its own group: groups that share
/// an error source hear of each other, and which sources they name to each other goes by weight (at most twelve).
struct JobMemory {
  ShapeMemory estimates;
  JudgeMemory verdicts;
  Remembered<GroupToMeasure, MeasuredGroup> measured;

  /// To be called between judgements; forgets what the last one did not need.
  void next_round();
};

}  // namespace fettle
