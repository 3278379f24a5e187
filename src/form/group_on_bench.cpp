#include "form/group_on_bench.h"

#include "base/assertion.h"

namespace fettle {

GroupOnBench group_on_bench(const GroupEstimate& group, const std::vector<PartOnBench>& parts) {
  GroupOnBench out{{}, group.parts, group.sources};
  for (const PartEstimate& estimate : group.parts) {
    const PartOnBench* part = find_part(parts, estimate.part);
    FETTLE_ASSERT(part != nullptr, estimate.part);
    out.parts.push_back(*part);
  }
  return out;
}

}  // namespace fettle
