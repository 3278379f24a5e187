#pragma once

#include <string>

#include "app/recorded_job.h"
#include "wire/act.h"

namespace fettle {

/// The job as it may be known to a second person who reads this part anew: without what others read of it, so that nothing said to them
/// leans on it.
[[nodiscard]] Job for_second_reader(const RecordedJob& recorded, const std::string& part, const std::string& who);

/// Whether `who` reads the part a second time with this reading: another person's good reading stands at its place, or at a place that `who`
/// has read before. Whoever only goes on where another stopped does not.
[[nodiscard]] bool reads_second(const RecordedJob& recorded, const ReadingAct& act, const std::string& who);

}  // namespace fettle
