#include "app/recorded_job.h"

#include <algorithm>

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

Result<RecordedJob> recorded_from(const std::vector<AcceptedEvent>& events) {
  if (const auto breaks = chain_breaks(events); !breaks.empty()) {
    return Problem{"store.chain_broken", {}, {verbatim("job", events.front().envelope.job), count("position", breaks.front().position)}};
  }
  RecordedJob out{};
  Problems problems;
  for (const AcceptedEvent& each : events) {
    Result<EventEnvelope> read = read_event(each.envelope.line, place_of(each.envelope.job, each.accepted.position));
    if (auto event = take(std::move(read), problems)) out.events.push_back(std::move(*event));
    out.accepted.push_back(each.accepted);
  }
  if (!problems.empty()) return problems;
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

Result<std::vector<Accepted>> append_events(Store& store, const std::vector<EventEnvelope>& there, const std::vector<EventEnvelope>& more) {
  std::vector<EventEnvelope> all = there;
  all.insert(all.end(), more.begin(), more.end());
  if (Problems problems = fold(all).problems; !problems.empty()) return problems;
  std::vector<Envelope> envelopes;
  for (const EventEnvelope& each : more) envelopes.push_back({each.job, each.id, event_json(each)});
  return store.accept(envelopes);
}

Result<std::vector<Accepted>> append(Store& store, const RecordedJob& to, std::vector<Payload> payloads, const Doing& doing) {
  std::vector<EventEnvelope> more;
  std::int64_t sequence = last_sequence(to.events, kDevice);
  std::string before = to.accepted.empty() ? kNoHash : to.accepted.back().hash;
  for (Payload& payload : payloads) {
    EventEnvelope event{std::string(32, '0'), to.job.id, kDevice, ++sequence, doing.at, doing.who, std::move(payload)};
    event.id = digest({before, event_json(event)});
    before = event.id;
    more.push_back(std::move(event));
  }
  return append_events(store, to.events, more);
}

}  // namespace fettle
