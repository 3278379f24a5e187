#pragma once

#include <string>
#include <vector>

#include "cli/judgement_text.h"
#include "wire/record_json.h"

namespace fettle {

/// A line for each job, and how many more there are.
[[nodiscard]] std::string found_jobs_text(const FoundJobs& found, const FindQuery& query, const Look& look);

[[nodiscard]] std::string verified_record_text(const VerifiedRecord& verified, Language language);

[[nodiscard]] std::string judged_all_text(const JudgedAll& judged, Language language);

[[nodiscard]] std::string part_history_text(const std::vector<RebuildOfPart>& history, const Look& look);

}  // namespace fettle
