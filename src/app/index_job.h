#pragma once

#include <string>
#include <vector>

#include "app/recorded_job.h"
#include "store/store.h"
#include "verdict/judge.h"
#include "wire/verdict_lines.h"

namespace fettle {

/// Version of this program, as judgements that are kept name it.
[[nodiscard]] std::string program_version();

/// What the job is listed and found by. `judgement`: null where it could not be judged.
[[nodiscard]] JobRow row_of(const RecordedJob& recorded, const Judgement* judgement);

/// Keeps the job's row where the one that is kept is of an older log, or says less. `judgement`: null where it was not judged as it is now.
void list_job(Store& store, const RecordedJob& recorded, const Judgement* judgement);

/// Lists every job whose row is of an older log, or missing, as a program that was killed leaves it. One that cannot be read is passed over.
void list_jobs_left_behind(Store& store);

/// What judging a recorded job now gives, and what is kept of it.
struct JudgedRecord {
  std::vector<VerdictLine> lines;  ///< empty where it could not be judged ...
  Problems problems;               ///< ... for these
};

/// Judges the job by its own rule, and keeps the row and the judgement in the store.
JudgedRecord index_job(Store& store, const RecordedJob& recorded);

}  // namespace fettle
