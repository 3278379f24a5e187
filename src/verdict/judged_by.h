#pragma once

#include <vector>

#include "form/group_estimate.h"
#include "verdict/verdict.h"

namespace fettle {

/// By which model a verdict was made.
struct JudgedBy {
  EstimateModel model;
  Message why;  ///< the shape model with the profile it expects, or plainly and why so
};

/// Needs the groups that the verdict was made from: its part is in one of them. A definition that the shape model cannot weigh is judged
/// plainly also in a group of that model.
[[nodiscard]] JudgedBy judged_by(const std::vector<GroupEstimate>& groups, const Verdict& verdict);

}  // namespace fettle
