#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "job/events.h"
#include "job/job.h"
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
  std::string day;   ///< UTC, of its first event
  Part part;
  StateWord state;
  std::vector<Verdict> verdicts;
  std::vector<HistoryLine> lines;
  Job judged;           ///< with the limits that the verdicts name
  Problems problems;    ///< why it could not be judged
  std::optional<StateWord> without_thumb = {};  ///< as of PartState
};

}  // namespace fettle
