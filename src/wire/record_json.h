#pragma once

#include <string>
#include <vector>

#include "job/rebuild_of_part.h"
#include "store/verified_record.h"
#include "wire/verdict_lines.h"

namespace fettle {

// What is said of a whole record, as JSON; see json_text.h.

/// A verdict that another version of the program, or an earlier state of the job, gave otherwise.
struct ChangedVerdict {
  std::string job;
  std::string program;  ///< that judged it before
  VerdictLine before;   ///< word empty: this was not judged
  VerdictLine now;
};

struct JudgedAll {
  std::int64_t jobs;      ///< in the store
  std::int64_t judged;    ///< now
  std::int64_t skipped;   ///< this version had judged them as they stand
  std::int64_t compared;  ///< another version had judged the same events; judged once more, this one
  std::vector<ChangedVerdict> changed;  ///< of those compared, by job
  std::vector<StoreFault> refused;      ///< jobs that could not be opened or judged, with why
  bool stopped;           ///< before all were done: what was judged is kept, and the next run goes on from there
};

/// found-jobs.schema.json
[[nodiscard]] std::string found_jobs_json(const FoundJobs& found);

/// verified-record.schema.json
[[nodiscard]] std::string verified_record_json(const VerifiedRecord& verified);

/// judged-all.schema.json
[[nodiscard]] std::string judged_all_json(const JudgedAll& judged);

/// part-history.schema.json: of each event its id and type; the event itself stands in the log.
[[nodiscard]] std::string part_history_json(const std::vector<RebuildOfPart>& history);

}  // namespace fettle
