#pragma once

#include <string>
#include <vector>

#include "cli/commands.h"
#include "job/events.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle export` was asked for.
struct ExportAsked {
  std::string out;           ///< folder that gets the files
  std::string decimal_mark;  ///< of the tables: point or comma
};

/// Writes a job for people and for other programs, and names what it wrote. Problems: those of judging it, and of
/// prepare_folder; nothing is written then.
[[nodiscard]] RunResult run_export(const ExportAsked& asked, const std::vector<EventEnvelope>& events, Language language);

}  // namespace fettle
