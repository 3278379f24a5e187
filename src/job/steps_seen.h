#pragma once

#include <vector>

#include "job/job.h"

namespace fettle {

/// Gives the parts the step that was seen on them.
void stand_at(std::vector<Kept<Part>>& parts, const StepSeen& seen);

}  // namespace fettle
