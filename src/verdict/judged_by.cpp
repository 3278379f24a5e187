#include "verdict/judged_by.h"

#include <algorithm>

#include "base/assertion.h"

namespace fettle {

JudgedBy judged_by(const std::vector<GroupEstimate>& groups, const Verdict& verdict) {
  const auto holds = [&](const GroupEstimate& group) {
    return std::any_of(group.parts.begin(), group.parts.end(), [&](const PartEstimate& each) { return each.part == verdict.part; });
  };
  const auto group = std::find_if(groups.begin(), groups.end(), holds);
  FETTLE_ASSERT(group != groups.end(), verdict.part);
  const bool without_chance = verdict.doubt && !verdict.chance;
  if (group->shape && without_chance) return {EstimateModel::plain, {"why.plainly", {word("reason", "plainly.formula")}}};
  return {group->model, group->why};
}

}  // namespace fettle
