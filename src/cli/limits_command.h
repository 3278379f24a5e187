#pragma once

#include <string>

#include "cli/commands.h"
#include "limits/sheet.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle limits` was asked for.
struct LimitsAsked {
  std::string sheet;
  std::string id;  ///< in a job; empty: the name of the file
};

/// The rows of a sheet that give no limit, a line each with the reason and, where figures are refused, their problems.
[[nodiscard]] std::string unused_rows_text(const LimitSheet& sheet, Language language);

/// The limits of a sheet as job.toml takes them; what gives none stands as a comment with its reason, and so does what rests on an open question
/// of the proof: then the exit code is 1.
[[nodiscard]] RunResult run_limits(const LimitsAsked& asked, Language language);

}  // namespace fettle
