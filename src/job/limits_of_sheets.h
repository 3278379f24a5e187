#pragma once

#include <string>

#include "base/problem.h"
#include "job/job.h"

namespace fettle {

/// Adds the limits that the sheets of a job give to its limits, after those entered by themselves, each with the event of its sheet. Their ids begin with the
/// sheet's: "book.bore-wear". A sheet that this catalogue cannot read gives none, see problems_of_sheets. Problems: job.id_taken.
void add_limits_of_sheets(Job& job, Problems& problems);

/// Why sheets of the job give no limits, each with its id: sheet_problems of the sheet in the catalogue of this program.
[[nodiscard]] Problems problems_of_sheets(const Job& job);

/// The ids of the limits that a version of a sheet gives, whatever is asked about it.
[[nodiscard]] std::vector<std::string> limit_ids_of(const SheetEntered& version);

/// job.sheet_id_bad unless it is 1 to 40 of a-z, A-Z, 0-9, - and _: it names files and begins the ids of limits.
[[nodiscard]] Problems sheet_id_problems(const std::string& id, const Place& place);

}  // namespace fettle
