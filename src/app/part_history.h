#pragma once

#include <string>
#include <vector>

#include "app/recorded_job.h"
#include "verdict/verdict.h"

namespace fettle {

/// One event about a part, or about what its readings rest on.
struct HistoryLine {
  std::int64_t position;
  std::string event;
  std::string made_at;
  std::string who;
  Payload payload;
  bool stands;      ///< neither withdrawn nor corrected
  std::string why;  ///< where it no longer stands: the reason given, or the note of what corrects it
};

/// A part in one rebuild.
struct RebuildOfPart {
  std::string job;
  std::string name;  ///< of the job
  std::string day;   ///< of its first event, see JobRow
  Part part;
  StateWord state;
  std::vector<Verdict> verdicts;
  std::vector<HistoryLine> lines;
  Job judged;           ///< with the limits that the verdicts name
  Problems problems;    ///< why it could not be judged
};

/// The part in this job, and parts of the same id in every job on an engine of the same serial number, the earliest first. An engine without a
/// serial number is known in its own job only. Problems: those of open_recorded, record.no_such_part.
[[nodiscard]] Result<std::vector<RebuildOfPart>> part_history(Store& store, const std::string& job, const std::string& part);

}  // namespace fettle
