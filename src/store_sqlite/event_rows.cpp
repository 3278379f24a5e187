#include "store_sqlite/event_rows.h"

#include <algorithm>
#include <map>

#include "store_sqlite/failure.h"
#include "store_sqlite/hexadecimal.h"

namespace fettle::sqlite {
namespace {

constexpr std::int64_t kPlacesOfJob = std::int64_t{1} << 32;
const char* const kEventColumns = "select job, position, id, accepted_at, previous, hash, line from event ";

/// Where a job's chain ends. Position 0: it has no events; number 0: not even a row.
struct ChainEnd {
  std::int64_t number;
  std::int64_t position;
  std::string hash;
};

AcceptedEvent event_in(const Statement& row) {
  return {{row.bytes(0), row.bytes(2), row.bytes(6)},
          {row.integer(1), row.bytes(3), hash_digits(row.bytes(4)), hash_digits(row.bytes(5))}};
}

bool verifies(const AcceptedEvent& event) {
  const Accepted& accepted = event.accepted;
  return accepted.hash == chain_hash(event.envelope, accepted.position, accepted.accepted_at, accepted.previous);
}

std::int64_t number_of_job(Connection& connection, const std::string& job) {
  Statement asked = connection.statement("select number from job where id = ?");
  return asked.text(job).step() ? asked.integer(0) : 0;
}

std::optional<AcceptedEvent> last_row(Connection& connection, std::int64_t number) {
  Statement asked = connection.statement(std::string(kEventColumns) + "where place > ? and place < ? order by place desc limit 1");
  asked.number(number * kPlacesOfJob).number((number + 1) * kPlacesOfJob);
  if (!asked.step()) return std::nullopt;
  return event_in(asked);
}

std::optional<AcceptedEvent> with_id(Connection& connection, const std::string& job, const std::string& id) {
  Statement asked = connection.statement(std::string(kEventColumns) + "where job = ? and id = ?");
  if (!asked.text(job).text(id).step()) return std::nullopt;
  return event_in(asked);
}

std::optional<AcceptedEvent> at_position(Connection& connection, std::int64_t number, std::int64_t position) {
  Statement asked = connection.statement(std::string(kEventColumns) + "where place = ?");
  if (!asked.number(number * kPlacesOfJob + position).step()) return std::nullopt;
  return event_in(asked);
}

/// The ends of the chains that one call writes to. A chain whose end is damaged is not carried on.
class Ends {
 public:
  explicit Ends(Connection& writer) : writer_(&writer) {}

  ChainEnd& of(const std::string& job) {
    const auto found = ends_.find(job);
    if (found != ends_.end()) return found->second;
    const std::int64_t number = number_of_job(*writer_, job);
    ChainEnd end{number, 0, kNoHash};
    if (const auto last = number == 0 ? std::nullopt : last_row(*writer_, number)) {
      if (!verifies(*last) || last->envelope.job != job) throw damaged(writer_->path(), "the last event of " + job);
      end = {number, last->accepted.position, last->accepted.hash};
    }
    return ends_.emplace(job, end).first->second;
  }

  void append(ChainEnd& end, const AcceptedEvent& event) {
    if (end.number == 0) end.number = add_job(event.envelope.job);
    const Accepted& accepted = event.accepted;
    FETTLE_ASSERT(accepted.position > 0 && accepted.position < kPlacesOfJob, std::to_string(accepted.position));
    const std::string previous = hash_bytes(accepted.previous);
    const std::string hash = hash_bytes(accepted.hash);
    writer_->statement("insert into event (place, job, position, id, accepted_at, previous, hash, line) values (?, ?, ?, ?, ?, ?, ?, ?)")
        .number(end.number * kPlacesOfJob + accepted.position)
        .text(event.envelope.job)
        .number(accepted.position)
        .text(event.envelope.id)
        .text(accepted.accepted_at)
        .blob(previous)
        .blob(hash)
        .text(event.envelope.line)
        .run();
    end.position = accepted.position;
    end.hash = accepted.hash;
  }

 private:
  std::int64_t add_job(const std::string& job) {
    Statement added = writer_->statement("insert into job (id) values (?) returning number");
    FETTLE_ASSERT(added.text(job).step(), job);
    const std::int64_t number = added.integer(0);
    added.run();
    return number;
  }

  Connection* writer_;
  std::map<std::string, ChainEnd> ends_;
};

/// After `after`, one by one.
bool in_order(const std::vector<AcceptedEvent>& events, std::int64_t after) {
  std::int64_t last = after;
  return std::all_of(events.begin(), events.end(), [&](const AcceptedEvent& event) { return event.accepted.position == ++last; });
}

Problem other_bytes(const Envelope& envelope) {
  return {"store.other_bytes", {}, {verbatim("job", envelope.job), verbatim("id", envelope.id)}};
}

Problem went_apart(const AcceptedEvent& event) {
  return {"store.went_apart", {}, {verbatim("job", event.envelope.job), count("position", event.accepted.position)}};
}

Problem chain_broken(const AcceptedEvent& event) {
  return {"store.chain_broken", {}, {verbatim("job", event.envelope.job), count("position", event.accepted.position)}};
}

bool well_hashed(const AcceptedEvent& event) {
  return !hash_bytes(event.accepted.hash).empty() && !hash_bytes(event.accepted.previous).empty() && verifies(event);
}

/// What speaks against taking this event over at the end of its chain, or as the one that is there already.
std::optional<Problem> against(Connection& writer, const ChainEnd& end, const AcceptedEvent& event) {
  if (!well_hashed(event)) return chain_broken(event);
  const Accepted& accepted = event.accepted;
  if (accepted.position <= end.position) {
    if (at_position(writer, end.number, accepted.position) == event) return std::nullopt;
    return went_apart(event);
  }
  if (accepted.position != end.position + 1 || accepted.previous != end.hash) return chain_broken(event);
  if (with_id(writer, event.envelope.job, event.envelope.id).has_value()) return other_bytes(event.envelope);
  return std::nullopt;
}

}  // namespace

Result<std::vector<Accepted>> accept_events(Connection& writer, Clock& clock_of_acceptance, const std::vector<Envelope>& envelopes) {
  Ends ends(writer);
  Problems problems;
  std::vector<Accepted> out;
  const std::string accepted_at = clock_of_acceptance.now();
  for (const Envelope& envelope : envelopes) {
    if (const auto known = with_id(writer, envelope.job, envelope.id)) {
      if (known->envelope.line != envelope.line) problems.push_back(other_bytes(envelope));
      out.push_back(known->accepted);
      continue;
    }
    ChainEnd& end = ends.of(envelope.job);
    Accepted accepted{end.position + 1, accepted_at, end.hash, {}};
    accepted.hash = chain_hash(envelope, accepted.position, accepted.accepted_at, accepted.previous);
    ends.append(end, {envelope, accepted});
    out.push_back(accepted);
  }
  if (!problems.empty()) return problems;
  return out;
}

Result<std::vector<Accepted>> accept_events_after(Connection& writer, Clock& clock_of_acceptance, const std::vector<Envelope>& envelopes,
                                                  std::int64_t position) {
  const std::string& job = envelopes.front().job;
  if (Ends(writer).of(job).position != position) return Problem{"store.moved_on", {}, {verbatim("job", job)}};
  return accept_events(writer, clock_of_acceptance, envelopes);
}

Result<std::int64_t> take_over_events(Connection& writer, const std::vector<AcceptedEvent>& events) {
  Ends ends(writer);
  std::int64_t fresh = 0;
  for (const AcceptedEvent& event : events) {
    ChainEnd& end = ends.of(event.envelope.job);
    if (auto problem = against(writer, end, event)) return *std::move(problem);
    if (event.accepted.position <= end.position) continue;
    ends.append(end, event);
    ++fresh;
  }
  return fresh;
}

ReadEvents read_events(Connection& reader, const std::string& job, std::int64_t after) {
  ReadEvents out{{}, true};
  try {
    const std::int64_t first = number_of_job(reader, job) * kPlacesOfJob;
    // The index knows how many there are by another way than the rows, so that a lost page of rows is noticed.
    Statement counted = reader.statement("select count(*) from event indexed by event_id where job = ? and place > ?");
    const auto expected = counted.text(job).number(first + after).step() ? static_cast<std::size_t>(counted.integer(0)) : 0;
    Statement rows = reader.statement(std::string(kEventColumns) + "where place > ? and place < ? order by place");
    rows.number(first + after).number(first == 0 ? 0 : first + kPlacesOfJob);
    while (rows.step()) {
      AcceptedEvent event = event_in(rows);
      if (event.envelope.job == job && verifies(event)) out.events.push_back(std::move(event));
    }
    out.whole = out.events.size() == expected && in_order(out.events, after);
  } catch (const StoreError& error) {
    if (!is_damage(error)) throw;
    out.whole = false;
  }
  return out;
}

std::vector<AcceptedEvent> unverified_events(Connection& reader, std::int64_t job_number) {
  std::vector<AcceptedEvent> out;
  Statement rows = reader.statement(std::string(kEventColumns) + "where place > ? and place < ? order by place");
  rows.number(job_number * kPlacesOfJob).number((job_number + 1) * kPlacesOfJob);
  while (rows.step()) out.push_back(event_in(rows));
  return out;
}

std::optional<Accepted> last_event(Connection& reader, const std::string& job) {
  const std::int64_t number = number_of_job(reader, job);
  if (number == 0) return std::nullopt;
  const auto last = last_row(reader, number);
  if (!last) return std::nullopt;
  if (!verifies(*last)) throw damaged(reader.path(), "the last event of " + job);
  return last->accepted;
}

std::vector<std::string> job_ids(Connection& reader) {
  std::vector<std::string> out;
  Statement rows = reader.statement("select id from job order by id");
  while (rows.step()) out.push_back(rows.bytes(0));
  return out;
}

}  // namespace fettle::sqlite
