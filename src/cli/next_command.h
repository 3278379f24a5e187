#pragma once

#include "app/judge_job.h"
#include "cli/commands.h"

namespace fettle {

/// What to read next in a job. Exit code 1 where something is too close to call.
[[nodiscard]] RunResult run_next(const JudgedJob& judged, bool json, Language language);

}  // namespace fettle
