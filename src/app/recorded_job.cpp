#include "app/recorded_job.h"

#include <algorithm>
#include <future>
#include <iterator>

#include "app/job_at_work.h"
#include "base/digest.h"
#include "job/fold.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

constexpr const char* kDevice = "command-line";

Place place_of(const std::string& job, std::int64_t position) { return {job, static_cast<int>(position), std::nullopt}; }

std::int64_t last_sequence(const std::vector<EventEnvelope>& events, const std::string& device) {
  std::int64_t out = 0;
  for (const EventEnvelope& each : events) {
    if (each.device == device) out = std::max(out, each.device_sequence);
  }
  return out;
}

}  // namespace

namespace {

/// From so many on, two threads read a log quicker than one.
constexpr std::size_t kManyEvents = 1000;

struct ReadEvents {
  std::vector<EventEnvelope> events;
  Problems problems;
};

ReadEvents read_some(const AcceptedEvent* from, const AcceptedEvent* to) {
  ReadEvents out;
  for (const AcceptedEvent* each = from; each != to; ++each) {
    Result<EventEnvelope> read = read_event(each->envelope.line, place_of(each->envelope.job, each->accepted.position));
    if (auto event = take(std::move(read), out.problems)) out.events.push_back(std::move(*event));
  }
  return out;
}

/// The chain is checked, and all is read only where it hangs together.
ReadEvents read_all(const std::vector<AcceptedEvent>& events, std::vector<ChainBreak>& breaks) {
  const AcceptedEvent* const begin = events.data();
  const AcceptedEvent* const end = begin + events.size();
  if (events.size() < kManyEvents) {
    breaks = chain_breaks(events);
    return breaks.empty() ? read_some(begin, end) : ReadEvents{};
  }
  // The other thread gets the larger part, as this one looks along the chain first.
  const AcceptedEvent* const cut = begin + events.size() * 2 / 5;
  auto later = std::async(std::launch::async, read_some, cut, end);
  breaks = chain_breaks(events);
  ReadEvents out = read_some(begin, cut);
  ReadEvents rest = later.get();
  out.events.insert(out.events.end(), std::make_move_iterator(rest.events.begin()), std::make_move_iterator(rest.events.end()));
  out.problems.insert(out.problems.end(), rest.problems.begin(), rest.problems.end());
  return out;
}

}  // namespace

Result<RecordedJob> recorded_from(const std::vector<AcceptedEvent>& events) {
  std::vector<ChainBreak> breaks;
  ReadEvents read = read_all(events, breaks);
  if (!breaks.empty()) {
    return Problem{"store.chain_broken", {}, {verbatim("job", events.front().envelope.job), count("position", breaks.front().position)}};
  }
  if (!read.problems.empty()) return std::move(read.problems);
  RecordedJob out{};
  out.events = std::move(read.events);
  for (const AcceptedEvent& each : events) out.accepted.push_back(each.accepted);
  Folded folded = fold(out.events);
  if (!folded.problems.empty()) return std::move(folded.problems);
  out.job = std::move(folded.job);
  return out;
}

Result<RecordedJob> open_recorded(Store& store, const std::string& job) {
  const std::vector<AcceptedEvent> events = store.events(job, 0);
  if (events.empty()) return Problem{"record.no_such_job", {}, {verbatim("job", job)}};
  return recorded_from(events);
}

Result<std::vector<Accepted>> append_events(Store& store, const RecordedJob& to, const std::vector<EventEnvelope>& more) {
  std::vector<EventEnvelope> all = to.events;
  all.insert(all.end(), more.begin(), more.end());
  if (const Result<Job> after = folded_after(to.job, all); !after.ok()) return after.problems();
  std::vector<Envelope> envelopes;
  for (const EventEnvelope& each : more) envelopes.push_back({each.job, each.id, event_json(each)});
  if (envelopes.empty()) return std::vector<Accepted>{};
  return store.accept_after(envelopes, static_cast<std::int64_t>(to.events.size()));
}

Result<std::vector<std::string>> append(Store& store, const RecordedJob& to, std::vector<Payload> payloads, const Doing& doing) {
  std::vector<EventEnvelope> more;
  std::vector<std::string> ids;
  std::int64_t sequence = last_sequence(to.events, kDevice);
  std::string before = to.accepted.empty() ? kNoHash : to.accepted.back().hash;
  for (Payload& payload : payloads) {
    EventEnvelope event{std::string(32, '0'), to.job.id, kDevice, ++sequence, doing.at, doing.who, std::move(payload)};
    event.id = digest({before, event_json(event)});
    before = event.id;
    ids.push_back(event.id);
    more.push_back(std::move(event));
  }
  const Result<std::vector<Accepted>> accepted = append_events(store, to, more);
  if (!accepted.ok()) return accepted.problems();
  return ids;
}

}  // namespace fettle
