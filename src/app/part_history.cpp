#include "app/part_history.h"

#include <algorithm>
#include <map>
#include <set>

#include "app/index_job.h"
#include "app/judge_job.h"
#include "app/recorded_job.h"

namespace fettle {
namespace {

constexpr std::size_t kJobsAtOnce = 1000;

const Part* part_in(const Job& job, const std::string& id) {
  const auto found = std::find_if(job.parts.begin(), job.parts.end(), [&](const auto& each) { return each.value.id == id; });
  return found == job.parts.end() ? nullptr : &found->value;
}

bool is_about(const Payload& payload, const std::string& part) {
  if (const auto* entered = std::get_if<PartEntered>(&payload)) return entered->part.id == part;
  if (const auto* seen = std::get_if<FindingSeen>(&payload)) return seen->finding.part == part;
  if (const auto* taken = std::get_if<ReadingTaken>(&payload)) return taken->reading.part == part;
  if (const auto* attached = std::get_if<FileAttached>(&payload)) return attached->part == part;
  if (const auto* decided = std::get_if<VerdictTaken>(&payload)) return decided->part == part;
  return false;
}

/// Why what no longer stands does not, by the event.
std::map<std::string, std::string> set_aside(const RecordedJob& recorded) {
  std::map<std::string, std::string> out;
  for (const Kept<EventWithdrawn>& each : recorded.job.withdrawn) out[each.value.event] = each.value.why;
  for (const Kept<Reading>& each : recorded.job.readings) {
    if (each.value.supersedes) out.emplace(*each.value.supersedes, each.value.why.value_or(each.value.note));
  }
  for (const Kept<Reading>& each : recorded.job.superseded_readings) {
    if (each.value.supersedes) out.emplace(*each.value.supersedes, each.value.why.value_or(each.value.note));
  }
  return out;
}

std::vector<HistoryLine> lines_about(const RecordedJob& recorded, const std::string& part) {
  const auto aside = set_aside(recorded);
  std::set<std::string> not_standing;
  for (const auto& each : recorded.job.superseded_readings) not_standing.insert(each.event);
  for (const auto& each : recorded.job.withdrawn) not_standing.insert(each.value.event);
  std::vector<HistoryLine> out;
  std::set<std::string> about;
  for (std::size_t i = 0; i < recorded.events.size(); ++i) {
    const EventEnvelope& event = recorded.events[i];
    const auto* withdrawal = std::get_if<EventWithdrawn>(&event.payload);
    if (!is_about(event.payload, part) && (withdrawal == nullptr || !about.contains(withdrawal->event))) continue;
    about.insert(event.id);
    const auto why = aside.find(event.id);
    const bool stands = !not_standing.contains(event.id);
    out.push_back({recorded.accepted[i].position, event.id, event.made_at, event.who, event.payload, stands,
                   stands || why == aside.end() ? "" : why->second});
  }
  return out;
}

std::optional<RebuildOfPart> rebuild_of(const RecordedJob& recorded, const std::string& part) {
  const Part* entered = part_in(recorded.job, part);
  if (entered == nullptr) return std::nullopt;
  const JobRow row = row_of(recorded, nullptr);
  RebuildOfPart out{recorded.job.id, row.name, row.first_made_at, *entered, StateWord::not_judged, {}, lines_about(recorded, part), recorded.job, {}};
  const Result<JudgedJob> judged = judge_job(recorded.job, {std::nullopt, usual_accuracy(), JudgeDetail::verdicts});
  if (!judged.ok()) {
    out.problems = judged.problems();
    return out;
  }
  for (const PartState& each : judged.value().judgement.states) {
    if (each.part != part) continue;
    out.state = each.word;
    out.without_thumb = each.without_thumb;
  }
  for (const Verdict& each : judged.value().judgement.verdicts) {
    if (each.part == part) out.verdicts.push_back(each);
  }
  return out;
}

/// Another rebuild that cannot be read says so, and keeps none of the others back.
RebuildOfPart unreadable(Store& store, const std::string& job, const std::string& part, const Problems& problems) {
  const JobRow row = store.row(job).value_or(JobRow{});
  Part unknown{};
  unknown.id = part;
  return {job, row.name, row.first_made_at, unknown, StateWord::not_judged, {}, {}, {}, problems};
}

/// This job, and all others on an engine of the same serial number.
std::vector<std::string> jobs_of_engine(Store& store, const Job& job) {
  std::vector<std::string> out = {job.id};
  const std::string serial = job.engine ? job.engine->value.serial.value_or("") : "";
  if (serial.empty()) return out;
  // Found by letters anywhere in a row; those whose serial number is the very same are kept.
  FindQuery query{serial, std::nullopt, std::nullopt, std::nullopt, std::nullopt, std::nullopt, 0, kJobsAtOnce};
  for (FoundJobs found = store.find(query); !found.rows.empty(); found = store.find(query)) {
    for (const JobRow& each : found.rows) {
      if (each.serial == serial && each.job != job.id) out.push_back(each.job);
    }
    query.skip += found.rows.size();
  }
  return out;
}

}  // namespace

Result<std::vector<RebuildOfPart>> part_history(Store& store, const std::string& job, const std::string& part) {
  const Result<RecordedJob> asked = open_recorded(store, job);
  if (!asked.ok()) return asked.problems();
  if (part_in(asked.value().job, part) == nullptr) return Problem{"record.no_such_part", {}, {verbatim("part", part), verbatim("job", job)}};
  std::vector<RebuildOfPart> out;
  for (const std::string& each : jobs_of_engine(store, asked.value().job)) {
    const Result<RecordedJob> recorded = open_recorded(store, each);
    if (!recorded.ok()) {
      out.push_back(unreadable(store, each, part, recorded.problems()));
    } else if (auto rebuild = rebuild_of(recorded.value(), part)) {
      out.push_back(std::move(*rebuild));
    }
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.day < b.day; });
  return out;
}

}  // namespace fettle
