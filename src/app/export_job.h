#pragma once

#include <string>
#include <vector>

#include "app/judge_job.h"
#include "job/events.h"

namespace fettle {

struct ExportedFile {
  std::string name;
  std::string text;
};

struct ExportedJob {
  std::vector<ExportedFile> files;
  std::vector<Message> left_out;  ///< what the readable folder among them does not hold, see job/folder_text.h
};

struct ExportOptions {
  JudgeOptions judge;
  DecimalMark decimal_mark;  ///< of the tables; all else has a point, or what was typed
};

/// A job for people and for other programs: the readable folder (job.toml, readings.csv); readings and verdicts as tables and as JSON, with
/// the schemas of the JSON. Problems: those of fold, of judging, and what keeps the folder from being read again.
[[nodiscard]] Result<ExportedJob> export_job(const std::vector<EventEnvelope>& events, const ExportOptions& options);

/// The names of the files, before anything is reckoned.
[[nodiscard]] std::vector<std::string> exported_names();

}  // namespace fettle
