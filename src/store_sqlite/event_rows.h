#pragma once

#include <string>
#include <vector>

#include "base/clock.h"
#include "store/store.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

/// Inside a transaction for writing; whoever gets problems takes back what was written. As Store::accept.
[[nodiscard]] Result<std::vector<Accepted>> accept_events(Connection& writer, Clock& clock_of_acceptance, const std::vector<Envelope>& envelopes);
/// Likewise, as Store::accept_after.
[[nodiscard]] Result<std::vector<Accepted>> accept_events_after(Connection& writer, Clock& clock_of_acceptance, const std::vector<Envelope>& envelopes,
                                                                std::int64_t position);
/// As Store::take_over, on the same terms.
[[nodiscard]] Result<std::int64_t> take_over_events(Connection& writer, const std::vector<AcceptedEvent>& events);

/// Of one job, those after `after`, each verified by its own hash. `whole` is false if some are missing, or if the database could not be
/// read: then the pages may hold more.
struct ReadEvents {
  std::vector<AcceptedEvent> events;
  bool whole;
};
[[nodiscard]] ReadEvents read_events(Connection& reader, const std::string& job, std::int64_t after);
/// All rows of a job in the order of their places, verified by nothing.
[[nodiscard]] std::vector<AcceptedEvent> unverified_events(Connection& reader, std::int64_t job_number);

[[nodiscard]] std::optional<Accepted> last_event(Connection& reader, const std::string& job);
[[nodiscard]] std::vector<std::string> job_ids(Connection& reader);

}  // namespace fettle::sqlite
