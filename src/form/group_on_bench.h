#pragma once

#include <vector>

#include "form/group_estimate.h"

namespace fettle {

/// A group by value, with the parts it speaks of: what a computation over one group depends on.
struct GroupOnBench {
  std::vector<PartOnBench> parts;
  std::vector<PartEstimate> estimates;  ///< by part
  std::vector<ErrorSource> sources;     ///< that the estimates' terms speak of
  bool operator==(const GroupOnBench&) const = default;
};

/// Needs every part of the group among `parts`.
[[nodiscard]] GroupOnBench group_on_bench(const GroupEstimate& group, const std::vector<PartOnBench>& parts);

}  // namespace fettle
