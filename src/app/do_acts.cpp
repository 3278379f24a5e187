#include "app/do_acts.h"

#include <algorithm>

#include "app/act_payload.h"
#include "app/job_at_work.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

/// A withdrawal names an event that is there.
Problems of_unknown_event(const JobAtWork& at_work, const ActBody& body) {
  const auto* withdrawal = std::get_if<WithdrawAct>(&body);
  if (withdrawal == nullptr) return {};
  if (at_work.position_of(withdrawal->event)) return {};
  return {Problem{"record.no_such_event", {}, {verbatim("event", withdrawal->event), verbatim("job", at_work.job().id)}}};
}

/// Puts one act to the job.
ActDone put(JobAtWork& at_work, const Act& act, const JudgedJob* judged) {
  ActDone out{act.head.id, false, false, 0, {}, {}, {}};
  // In the log already, or twice in one message.
  if (const auto there = at_work.position_of(act.head.id)) {
    out.kept = true;
    out.position = *there;
    return out;
  }
  out.problems = of_unknown_event(at_work, act.body);
  if (!out.problems.empty()) return out;
  auto payload = take(act_payload(at_work, act, judged), out.problems);
  if (!payload) return out;
  EventEnvelope event{act.head.id, at_work.job().id, act.head.device, act.head.sequence, act.head.made_at, act.head.who, std::move(payload->payload)};
  out.problems = at_work.take(without_places(std::move(event)));
  if (!out.problems.empty()) return out;
  out.kept = true;
  out.fresh = true;
  out.position = at_work.end();
  out.said = std::move(payload->said);
  out.question = std::move(payload->question);
  return out;
}

}  // namespace

Result<ActsDone> do_acts(OpenJobs& jobs, const std::string& job, const std::vector<Act>& acts) {
  std::shared_ptr<const JudgedJob> judged;
  const bool takes_verdict = std::any_of(acts.begin(), acts.end(), [](const Act& each) { return std::holds_alternative<TakeVerdictAct>(each.body); });
  if (takes_verdict) {
    if (auto found = jobs.judged(job); found.ok()) judged = std::move(found).value();
  }
  ActsDone out{};
  const auto accepted = jobs.append(job, [&](JobAtWork& at_work) {
    out = {};
    for (const Act& each : acts) out.acts.push_back(put(at_work, each, judged.get()));
    out.position = at_work.end();
  });
  if (!accepted.ok()) return accepted.problems();
  return out;
}

}  // namespace fettle
