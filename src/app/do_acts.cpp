#include "app/do_acts.h"

#include <algorithm>

#include "app/act_payload.h"
#include "app/job_at_work.h"
#include "app/same_act.h"
#include "base/digest.h"
#include "wire/act_head.h"
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

bool takes_verdict(const Act& act) { return std::holds_alternative<TakeVerdictAct>(act.body); }

/// Whether the program has to say something of it yet.
bool is_new_verdict(const JobAtWork& at_work, const Act& act) { return takes_verdict(act) && !at_work.position_of(act.head.id); }

/// What the program says, and of which log it says so.
struct Said {
  std::shared_ptr<const JudgedJob> judged;  ///< null: nothing
  std::int64_t end;
};

/// What a second reading says of the first, as an event of its own beside the reading that is its reason.
void keep_answer(JobAtWork& at_work, const Act& act, QuestionAnswered answer) {
  const std::string id = digest({"answer", at_work.job().id, act.head.id});
  const Problems problems = at_work.take({id, at_work.job().id, act.head.device, act.head.sequence, act.head.made_at, act.head.who, std::move(answer)});
  FETTLE_ASSERT(problems.empty(), act.head.id);
}

/// Puts one act to the job. `said`: null where it says nothing of the job as it stands.
ActDone put(JobAtWork& at_work, const Act& act, const Said* said) {
  ActDone out{act.head.id, false, false, 0, {}, {}, {}};
  // In the log already, or twice in one message.
  if (const auto there = at_work.position_of(act.head.id)) {
    out.kept = same_act(at_work.job(), *at_work.event(act.head.id), act);
    if (out.kept) out.position = *there;
    if (!out.kept) out.problems = {Problem{"store.other_bytes", {}, {verbatim("job", at_work.job().id), verbatim("id", act.head.id)}}};
    return out;
  }
  out.problems = problems_of_head(act.head);
  const Problems unknown = of_unknown_event(at_work, act.body);
  out.problems.insert(out.problems.end(), unknown.begin(), unknown.end());
  if (said == nullptr && takes_verdict(act)) {
    // Without the program's word nothing else can be said of it.
    out.problems.push_back({"acts.judged_too_late", {}, {verbatim("job", at_work.job().id)}});
    return out;
  }
  auto payload = take(act_payload(at_work, act, said == nullptr ? nullptr : said->judged.get()), out.problems);
  if (!payload || !out.problems.empty()) return out;
  EventEnvelope event{act.head.id, at_work.job().id, act.head.device, act.head.sequence, act.head.made_at, act.head.who, std::move(payload->payload)};
  out.problems = at_work.take(without_places(std::move(event)));
  if (!out.problems.empty()) return out;
  if (payload->settles) keep_answer(at_work, act, std::move(*payload->settles));
  out.kept = true;
  out.fresh = true;
  out.position = at_work.end();
  out.said = std::move(payload->said);
  out.question = std::move(payload->question);
  return out;
}

using Acts = std::vector<Act>::const_iterator;

/// Verdicts that are taken, or none, and what follows them up to the next one: of these the verdicts are judged by the log before them.
Acts end_of_run(Acts from, Acts end) {
  const Acts after_verdicts = std::find_if_not(from, end, takes_verdict);
  return std::find_if(after_verdicts, end, takes_verdict);
}

/// So often a job is judged for a verdict that is taken, while others go on putting something to it.
constexpr int kMostJudgings = 5;

Result<ActsDone> put_run(OpenJobs& jobs, const std::string& job, Acts from, Acts end) {
  std::optional<Said> said;
  for (int judgings = 0;; ++judgings) {
    ActsDone out{};
    bool to_judge = false;
    const auto accepted = jobs.append(job, [&](JobAtWork& at_work) {
      out = {};
      // What a person takes is what the program says of the job as it stands when the word is kept, and of no earlier one.
      const bool says = said && said->end == at_work.end();
      to_judge = !says && std::any_of(from, end, [&](const Act& each) { return is_new_verdict(at_work, each); });
      if (to_judge && judgings < kMostJudgings) return;
      for (Acts each = from; each != end; ++each) out.acts.push_back(put(at_work, *each, says ? &*said : nullptr));
      out.position = at_work.end();
    });
    if (!accepted.ok()) return accepted.problems();
    if (!to_judge || judgings == kMostJudgings) return out;
    OpenJobs::JudgedAt judged = jobs.judged_at(job);
    said = Said{judged.judged.ok() ? std::move(judged.judged).value() : nullptr, judged.end};
  }
}

}  // namespace

Result<ActsDone> do_acts(OpenJobs& jobs, const std::string& job, const std::vector<Act>& acts) {
  ActsDone out{};
  Acts from = acts.begin();
  do {
    const Acts end = end_of_run(from, acts.end());
    auto done = put_run(jobs, job, from, end);
    if (!done.ok()) return done.problems();
    out.position = done.value().position;
    for (const ActDone& each : done.value().acts) out.acts.push_back(each);
    from = end;
  } while (from != acts.end());
  return out;
}

}  // namespace fettle
