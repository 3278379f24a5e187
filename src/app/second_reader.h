#pragma once

#include <string>

#include "app/recorded_job.h"

namespace fettle {

/// The job as it may be known to a second person who reads this part anew: without what others read of it, so that nothing said to them
/// leans on it.
[[nodiscard]] Job for_second_reader(const RecordedJob& recorded, const std::string& part, const std::string& who);

}  // namespace fettle
