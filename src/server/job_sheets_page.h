#pragma once

#include "app/recorded_job.h"
#include "text/sentence.h"
#include "verdict/limits_changed.h"
#include "wire/job_sheets_json.h"

namespace fettle {

/// The sheets in force, each as somebody would type it on, with the rows that give no limit.
[[nodiscard]] JobSheetsPage job_sheets_page(const RecordedJob& recorded, Language language);

/// What a version of a sheet would do, in words; `job` as it is.
[[nodiscard]] SheetEffectPage sheet_effect_page(const Job& job, const LimitsChanged& changed, Language language);

}  // namespace fettle
