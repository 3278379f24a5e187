#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "job/rebuild_of_part.h"
#include "store/store.h"

namespace fettle {

/// The part in this job, and parts of the same id in every job on an engine of the same serial number, the earliest first. An engine without a
/// serial number is known in its own job only. Another job that cannot be read stands there with its problems. Problems: those of open_recorded for
/// the job that is named, record.no_such_part.
[[nodiscard]] Result<std::vector<RebuildOfPart>> part_history(Store& store, const std::string& job, const std::string& part);

}  // namespace fettle
