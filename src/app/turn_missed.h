#pragma once

#include <vector>

#include "form/group_estimate.h"
#include "job/job.h"

namespace fettle {

/// A group that stands one or two whole turns of its dial away from its stated size was likelier set or read with a turn uncounted than
/// made so: one notice for each such group and gauge. Common practice, no source; see docs/NUMBERS.
[[nodiscard]] std::vector<Message> turns_missed(const Job& job, const std::vector<GroupEstimate>& groups);

}  // namespace fettle
