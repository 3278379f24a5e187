#pragma once

#include <string>
#include <vector>

#include "base/result.h"
#include "job/events.h"
#include "job/job.h"
#include "store/store.h"

namespace fettle {

/// A job as a record holds it.
struct RecordedJob {
  Job job;
  std::vector<EventEnvelope> events;    ///< in the order of their positions
  std::vector<Accepted> accepted;       ///< of each event
};

/// Reads, checks the chain and folds. Problems: record.no_such_job, store.chain_broken (the first place), record.unreadable_event (with what
/// is wrong in it), and those of fold.
[[nodiscard]] Result<RecordedJob> open_recorded(Store& store, const std::string& job);

/// The same of events that were read already, as from a bundle.
[[nodiscard]] Result<RecordedJob> recorded_from(const std::vector<AcceptedEvent>& events);

/// Who does something now, and when.
struct Doing {
  std::string who;    ///< may be empty
  std::string at;     ///< as the clock says
};

/// Appends payloads as events made here, after checking that the job still folds and keeps the rules of the record. Nothing is appended where
/// the job went on since it was read: store.moved_on; read it again and do it again (see while_overtaken). Their ids come from what they hold and what stood before
/// them. Problems: those of fold and of Store::accept, record.rule_broken; then nothing was appended. Gives their ids.
[[nodiscard]] Result<std::vector<std::string>> append(Store& store, const RecordedJob& to, std::vector<Payload> payloads, const Doing& doing);

/// Appends events as they are, likewise checked. `more` may hold some that are there already.
[[nodiscard]] Result<std::vector<Accepted>> append_events(Store& store, const RecordedJob& to, const std::vector<EventEnvelope>& more);

/// Does `act`, which reads a job and appends to it, again while somebody else was quicker; after many times what it says then is given.
template <class Act>
[[nodiscard]] auto while_overtaken(const Act& act) {
  constexpr int kMostTimes = 50;
  auto out = act();
  for (int i = 1; i < kMostTimes && !out.ok() && out.problems().front().code == "store.moved_on"; ++i) out = act();
  return out;
}

}  // namespace fettle
