#pragma once

#include "app/judge_job.h"
#include "entry/data_table.h"

namespace fettle {

/// Every verdict, by part, then in the order of the limits: the limit with its origin, as measured, estimate and doubt, word and chance. The
/// columns are told in docs/FILES.md; wire/schemas/verdicts.schema.json is the same as JSON.
[[nodiscard]] DataTable verdicts_table(const JudgedJob& judged);

}  // namespace fettle
