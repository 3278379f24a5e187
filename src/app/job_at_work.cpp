#include "app/job_at_work.h"

#include <algorithm>

#include "job/fold.h"
#include "job/invariants.h"
#include "job/take_on.h"
#include "wire/event_json.h"

namespace fettle {

JobAtWork::JobAtWork(RecordedJob& recorded) : recorded_(recorded) {}

std::optional<std::int64_t> JobAtWork::position_of(const std::string& event) const {
  for (std::size_t i = recorded_.events.size(); i-- > 0;) {
    if (recorded_.events[i].id == event) return static_cast<std::int64_t>(i) + 1;
  }
  return std::nullopt;
}

const EventEnvelope* JobAtWork::event(const std::string& id) const {
  const auto position = position_of(id);
  return position ? &recorded_.events[static_cast<std::size_t>(*position - 1)] : nullptr;
}

Problems JobAtWork::take(EventEnvelope event) {
  if (!take_on(recorded_.job, event)) {
    std::vector<EventEnvelope> all = recorded_.events;
    all.push_back(event);
    Result<Job> after = folded_after(recorded_.job, all);
    if (!after.ok()) return after.problems();
    recorded_.job = std::move(after).value();
  }
  recorded_.events.push_back(std::move(event));
  return {};
}

std::vector<Envelope> JobAtWork::fresh() const {
  std::vector<Envelope> out;
  for (std::size_t i = recorded_.accepted.size(); i < recorded_.events.size(); ++i) {
    const EventEnvelope& event = recorded_.events[i];
    out.push_back({event.job, event.id, event_json(event)});
  }
  return out;
}

Result<Job> folded_after(const Job& before, const std::vector<EventEnvelope>& all) {
  Folded folded = fold(all);
  if (!folded.problems.empty()) return std::move(folded.problems);
  const std::vector<BrokenRule> known = broken_rules(before);
  Problems out;
  for (const BrokenRule& each : broken_rules(folded.job)) {
    if (std::find(known.begin(), known.end(), each) != known.end()) continue;
    out.push_back({"record.rule_broken", {}, {verbatim("job", folded.job.id), word("rule", "record_rule." + std::string(each.rule)), verbatim("about", each.about)}});
  }
  if (!out.empty()) return out;
  return std::move(folded.job);
}

}  // namespace fettle
