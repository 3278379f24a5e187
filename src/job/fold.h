#pragma once

#include <vector>

#include "base/problem.h"
#include "job/events.h"
#include "job/job.h"

namespace fettle {

struct Folded {
  Job job;
  Problems problems;
};

/// Job = fold(events), in the order given. The same id with the same content counts once. What was withdrawn counts as if it had never
/// been; something entered anew under its id takes its place in the order. The last version of a sheet counts, and gives its limits, see limits_of_sheets.h. Settings have what was seen of them in use, see
/// settings_in_use.h. Problems: job.same_id_other_content, job.id_taken (two parts,
/// gauges, settings or limits of one id), job.supersedes_unknown, job.withdraws_unknown (no earlier event), job.another_job.
[[nodiscard]] Folded fold(const std::vector<EventEnvelope>& events);

}  // namespace fettle
