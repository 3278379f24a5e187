#include "app/index_job.h"

#include <algorithm>
#include <set>

#include "app/judge_job.h"
#include "base/day.h"

namespace fettle {
namespace {

/// Days on which events were made by their own words; where none says any, on which they were accepted. Sorted.
std::set<std::string> days_of(const RecordedJob& recorded) {
  std::set<std::string> out;
  for (const EventEnvelope& each : recorded.events) {
    if (const auto day = utc_day(each.made_at)) out.insert(*day);
  }
  if (!out.empty()) return out;
  for (const Accepted& each : recorded.accepted) {
    if (const auto day = utc_day(each.accepted_at)) out.insert(*day);
  }
  return out;
}

std::string state_in(const Judgement* judgement, const std::string& part) {
  if (judgement == nullptr) return std::string(state_word_name(StateWord::not_judged));
  const auto found = std::find_if(judgement->states.begin(), judgement->states.end(), [&](const PartState& each) { return each.part == part; });
  return std::string(state_word_name(found == judgement->states.end() ? StateWord::not_judged : found->word));
}

/// Somebody else may have gone on with the job while it was judged here.
void keep_row_unless_newer(Store& store, const JobRow& row) {
  const auto there = store.row(row.job);
  if (!there || there->events <= row.events) store.keep_row(row);
}

}  // namespace

std::string program_version() { return FETTLE_VERSION; }

JobRow row_of(const RecordedJob& recorded, const Judgement* judgement) {
  const Job& job = recorded.job;
  JobRow out{job.id, "", "", "", "", "", {}, static_cast<std::int64_t>(recorded.events.size()), static_cast<std::int64_t>(job.readings.size()), "", {}};
  if (job.opened) out.name = job.opened->value.name;
  if (job.engine) out.engine = job.engine->value.name;
  if (job.engine) out.serial = job.engine->value.serial.value_or("");
  std::set<std::string> people;
  for (const EventEnvelope& each : recorded.events) {
    if (!each.who.empty()) people.insert(each.who);
  }
  if (const auto days = days_of(recorded); !days.empty()) {
    out.first_made_at = *days.begin();
    out.last_made_at = *days.rbegin();
  }
  out.people.assign(people.begin(), people.end());
  if (judgement != nullptr) out.word = std::string(verdict_word_name(judgement->joint.word));
  for (const Kept<Part>& each : job.parts) out.parts.push_back({each.value.id, each.value.kind, state_in(judgement, each.value.id)});
  return out;
}

void list_job(Store& store, const RecordedJob& recorded, const Judgement* judgement) {
  const auto there = store.row(recorded.job.id);
  const auto events = static_cast<std::int64_t>(recorded.events.size());
  if (there && (there->events > events || (there->events == events && judgement == nullptr))) return;
  const JobRow row = row_of(recorded, judgement);
  if (!there || *there != row) store.keep_row(row);
}

void list_jobs_left_behind(Store& store) {
  for (const std::string& job : store.jobs()) {
    const auto there = store.row(job);
    const auto last = store.last(job);
    if (there && last && there->events >= last->position) continue;
    if (const auto recorded = open_recorded(store, job); recorded.ok()) list_job(store, recorded.value(), nullptr);
  }
}

JudgedRecord index_job(Store& store, const RecordedJob& recorded) {
  const Result<JudgedJob> judged = judge_job(recorded.job, {std::nullopt, usual_accuracy(), JudgeDetail::verdicts});
  if (!judged.ok()) {
    keep_row_unless_newer(store, row_of(recorded, nullptr));
    return {{}, judged.problems()};
  }
  const Judgement& judgement = judged.value().judgement;
  JudgedRecord out{lines_of(judgement), {}};
  store.keep_judgement({recorded.job.id, program_version(), static_cast<std::int64_t>(recorded.events.size()), recorded.accepted.back().hash,
                        verdict_lines_json(out.lines), ""});
  keep_row_unless_newer(store, row_of(recorded, &judgement));
  return out;
}

}  // namespace fettle
