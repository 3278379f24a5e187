#pragma once

#include <vector>

#include "catalogue/kind.h"
#include "form/group_estimate.h"

namespace fettle {

/// The places of an assembly: its own stations first, then those of each member, in the members' order; directions of one name and angle
/// are one. `own` are the assembly's own places, `members` the parts in the order of part.members. Needs every member to be a part
/// without members. Decision: an assembly is judged like any part, only that its places are borrowed.
[[nodiscard]] Layout assembly_layout(const Layout& own, const Part& part, const std::vector<const PartOnBench*>& members);

/// Puts what was read on the members into the places of each assembly; a member of which nothing is known leaves its places empty.
void borrow_places(const std::vector<PartOnBench>& parts, std::vector<GroupEstimate>& groups);

}  // namespace fettle
