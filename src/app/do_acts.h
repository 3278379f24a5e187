#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "app/open_jobs.h"
#include "app/understand.h"
#include "wire/act.h"

namespace fettle {

/// What became of one act.
struct ActDone {
  std::string id;
  bool kept;
  bool fresh;             ///< was not in the log before
  std::int64_t position;  ///< of a kept one
  std::optional<Message> said;
  std::optional<ReadingQuestion> question;
  Problems problems;      ///< of a refused one
};
struct ActsDone {
  std::int64_t position;  ///< where the log ends now
  std::vector<ActDone> acts;
};

/// Reads what was typed as the job has it, and keeps each act as an event of its id: durable when this returns. An act that the log has
/// already is kept, as it was then, if it is the same (see same_act.h). A refused act keeps no later one out that does not rest on it. A reading whose order in its round is
/// taken, as by another device that was away, gets the next one that is free; where the round was closed before it came and the device's own
/// count does not put it after that zero, it has no order at all, and the round stays closed. A verdict
/// that is taken is judged by the log as it stands before it, with all that was sent before it. Problems of the whole: those of
/// OpenJobs::append; what was sent before may be kept then, and counts once when it is sent again. Of an act:
/// store.other_bytes, those of problems_of_head, entry, gauging, limits and fold, of understand, record.no_such_event, .no_reason, .withdrawn_already, .rule_broken, job.part_unknown,
/// job.kind_unknown, acts.id_empty, acts.nothing_taken, acts.why_needed, acts.limit_unknown, acts.thumb_not_offered, acts.thumb_other_figure, acts.thumb_with_book, acts.word_long, acts.judged_too_late.
[[nodiscard]] Result<ActsDone> do_acts(OpenJobs& jobs, const std::string& job, const std::vector<Act>& acts);

}  // namespace fettle
