#pragma once

#include <vector>

#include "app/judge_job.h"
#include "entry/data_table.h"
#include "job/events.h"

namespace fettle {

/// Every reading that was ever taken, in the order of the events: what was typed, what it is in mm exactly, where it stands now, and the size
/// that it gives at 20 °C with its standard uncertainty. A reading that is flagged or was corrected gives no size. The columns are told in
/// docs/FILES.md; wire/schemas/readings.schema.json is the same as JSON.
[[nodiscard]] DataTable readings_table(const std::vector<EventEnvelope>& events, const JudgedJob& judged);

}  // namespace fettle
