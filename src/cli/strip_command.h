#pragma once

#include <string>

#include "app/judge_job.h"
#include "cli/commands.h"
#include "cli/judged_words.h"

namespace fettle {

/// What `fettle start` was asked for.
struct StartAsked {
  std::string file;  ///< the engine described; empty: the questions are listed
  std::string into;  ///< a new or an empty folder
  bool json = false;
};

/// Writes a job folder for an engine described in a file, or lists what is asked about one.
[[nodiscard]] RunResult run_start(const StartAsked& asked, Language language);

/// Taking the job's engine apart. `judged`: null where it cannot be judged.
[[nodiscard]] RunResult run_strip(const Job& job, const JudgedJob* judged, bool json, Language language);

}  // namespace fettle
