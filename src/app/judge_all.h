#pragma once

#include <string>
#include <vector>

#include "base/problem.h"
#include "base/progress.h"
#include "store/store.h"
#include "wire/verdict_lines.h"

namespace fettle {

struct JudgeAllOptions {
  std::size_t threads;  ///< at least 1; the result does not depend on it
  bool again;           ///< also jobs that this version has judged as they stand
};

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
  std::int64_t compared;  ///< of those judged now: another version had judged the same events
  std::vector<ChangedVerdict> changed;  ///< of those compared, by job
  std::vector<StoreFault> refused;      ///< jobs that could not be opened or judged, with why
  bool stopped;           ///< before all were done: what was judged is kept, and the next run goes on from there
};

/// Judges all stored jobs by this version of the program, and compares with what earlier versions made of the same events. Every job is kept
/// as soon as it is judged. Starts threads; tells `progress` from the thread that called.
[[nodiscard]] JudgedAll judge_all(Store& store, const JudgeAllOptions& options, Progress& progress);

}  // namespace fettle
