#pragma once

#include "app/judge_job.h"
#include "cli/commands.h"
#include "text/sentence.h"

namespace fettle {

/// Which readings of a job look like mistakes of a hand. Exit code 1 if something is asked.
[[nodiscard]] RunResult run_asked_again(const JudgedJob& judged, bool json, Language language);

}  // namespace fettle
