#pragma once

#include "app/judge_job.h"
#include "job/events.h"
#include "verdict/limits_changed.h"

namespace fettle {

/// The job with this version of a sheet in force, as fold would have it after the event. Problems: those of add_limits_of_sheets.
[[nodiscard]] Job with_sheet(Job job, const SheetEntered& version, Problems& problems);

/// What a version of a sheet of limits would do to the verdicts of a job, compared with what is in force: the job is judged as it is and as it would be, by the
/// same rule and accuracy. Problems: those of judge_job, sheet_id_problems and with_sheet.
[[nodiscard]] Result<LimitsChanged> sheet_change(const Job& job, const SheetEntered& version, const JudgeOptions& options);

}  // namespace fettle
