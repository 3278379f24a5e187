#pragma once

#include <string>
#include <vector>

#include "job/job.h"

namespace fettle {

/// job.toml of a job, as a person could have written it: quantities as typed, what was left out left out. `heading`: lines that stand as
/// comments on top.
[[nodiscard]] std::string job_text(const Job& job, const std::vector<std::string>& heading);

/// The file in which a sheet lies beside job.toml: "limits-book.toml".
[[nodiscard]] std::string sheet_file_name(const SheetEntered& sheet);

/// One limit as job.toml has it, with lines that stand as comments above it.
[[nodiscard]] std::string limit_text(const Limit& limit, const std::vector<std::string>& remarks);

/// One gauge study as job.toml has it.
[[nodiscard]] std::string study_text(const StudiedGauge& study);

}  // namespace fettle
