#pragma once

#include <string>

#include "app/correct.h"
#include "job/events.h"

namespace fettle {

/// Why a version of a sheet cannot be entered into a job, all at once: job.sheet_id_bad, record.sheet_same (nothing in it is other than in the version in
/// force), sheet_problems, limits.origin_missing (no book), and, where it takes the place of another version, those of problems_of_reason.
[[nodiscard]] Problems problems_of_sheet(const Job& job, const SheetEntered& version);

/// Enters it, and gives the event's id. Problems: problems_of_sheet, and those of append.
[[nodiscard]] Result<std::string> enter_sheet(Store& store, const RecordedJob& recorded, const SheetEntered& version, const Doing& doing);

}  // namespace fettle
