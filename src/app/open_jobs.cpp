#include "app/open_jobs.h"

#include <optional>

#include "app/index_job.h"
#include "app/job_memory.h"

namespace fettle {

struct OpenJobs::Held {
  std::mutex mutex;
  std::optional<RecordedJob> working;          ///< nobody else sees it
  std::shared_ptr<const RecordedJob> shown;    ///< a copy for those who ask, or null
  std::shared_ptr<const JudgedJob> judged;     ///< of `working`, or null
  std::mutex judging;                          ///< taken before `mutex`, never after it
  JobMemory memory;                            ///< of whoever judges
  bool to_list = false;                        ///< the row may be of an older log, or lack words
  bool just_went_on = false;                   ///< since the last look at what is to be listed

  void went_on() {
    shown = nullptr;
    judged = nullptr;
    to_list = true;
    just_went_on = true;
  }

  void list(Store& store, bool all) {
    const bool rests = !just_went_on;
    just_went_on = false;
    if (!to_list || !working || !(rests || all)) return;
    list_job(store, *working, judged ? &judged->judgement : nullptr);
    to_list = false;
  }

  /// Reads the job again where its log went on without us.
  Problems refresh(Store& store, const std::string& id) {
    const std::optional<Accepted> last = store.last(id);
    if (working && last && working->accepted.back().hash == last->hash) return {};
    went_on();
    working.reset();
    auto read = open_recorded(store, id);
    if (!read.ok()) return read.problems();
    working = std::move(read).value();
    return {};
  }

  const std::shared_ptr<const RecordedJob>& show() {
    if (!shown) shown = std::make_shared<const RecordedJob>(*working);
    return shown;
  }

  Result<std::vector<Accepted>> append(Store& store, const std::string& id, const Work& work) {
    if (Problems problems = refresh(store, id); !problems.empty()) return problems;
    // What is taken on and then not accepted, for whatever reason, must not stay in memory.
    RecordedJob recorded = std::move(*working);
    working.reset();
    JobAtWork at_work(recorded);
    work(at_work);
    std::vector<Accepted> fresh;
    if (const std::vector<Envelope> envelopes = at_work.fresh(); !envelopes.empty()) {
      auto accepted = store.accept_after(envelopes, static_cast<std::int64_t>(recorded.accepted.size()));
      if (!accepted.ok()) return accepted.problems();
      fresh = std::move(accepted).value();
      went_on();
    }
    recorded.accepted.insert(recorded.accepted.end(), fresh.begin(), fresh.end());
    working = std::move(recorded);
    return fresh;
  }
};

OpenJobs::OpenJobs(Store& store, Judge judge) : store_(store), judge_(std::move(judge)) {}
OpenJobs::~OpenJobs() = default;

std::shared_ptr<OpenJobs::Held> OpenJobs::held(const std::string& id) {
  const std::lock_guard lock(mutex_);
  auto& job = jobs_[id];
  if (!job) job = std::make_shared<Held>();
  return job;
}

void OpenJobs::forget(const std::string& id, const Problems& problems) {
  if (problems.front().code != "record.no_such_job") return;
  const std::lock_guard lock(mutex_);
  jobs_.erase(id);
}

std::size_t OpenJobs::count() {
  const std::lock_guard lock(mutex_);
  return jobs_.size();
}

Result<std::shared_ptr<const RecordedJob>> OpenJobs::job(const std::string& id) {
  const auto job = held(id);
  const std::lock_guard lock(job->mutex);
  if (Problems problems = job->refresh(store_, id); !problems.empty()) {
    forget(id, problems);
    return problems;
  }
  return job->show();
}

Result<std::shared_ptr<const JudgedJob>> OpenJobs::judged(const std::string& id) { return judged_at(id).judged; }

OpenJobs::JudgedAt OpenJobs::judged_at(const std::string& id) {
  const auto job = held(id);
  const std::lock_guard alone(job->judging);
  std::shared_ptr<const RecordedJob> of;
  std::int64_t end = 0;
  {
    const std::lock_guard lock(job->mutex);
    if (Problems problems = job->refresh(store_, id); !problems.empty()) {
      forget(id, problems);
      return {problems, 0};
    }
    end = static_cast<std::int64_t>(job->working->events.size());
    if (job->judged) return {job->judged, end};
    of = job->show();
  }
  // Nobody's reading waits for this: it may take longer than the next one.
  JudgeOptions options{{}, usual_accuracy(), JudgeDetail::side_by_side, nullptr, &job->memory};
  job->memory.next_round();
  auto judged = judge_(of->job, options);
  if (!judged.ok()) return {judged.problems(), end};
  auto out = std::make_shared<const JudgedJob>(std::move(judged).value());
  const std::lock_guard lock(job->mutex);
  if (job->shown == of) {
    job->judged = out;
    job->to_list = true;
  }
  return {out, end};
}

Result<std::vector<Accepted>> OpenJobs::append(const std::string& id, const Work& work) {
  const auto job = held(id);
  const std::lock_guard lock(job->mutex);
  auto appended = while_overtaken([&] { return job->append(store_, id, work); });
  if (!appended.ok()) forget(id, appended.problems());
  return appended;
}

void OpenJobs::list(bool all) {
  std::vector<std::shared_ptr<Held>> open;
  {
    const std::lock_guard lock(mutex_);
    for (const auto& [id, job] : jobs_) open.push_back(job);
  }
  for (const auto& job : open) {
    const std::lock_guard lock(job->mutex);
    try {
      job->list(store_, all);
    } catch (const WorldError&) {
      // A full disk is told to whoever types; the row is only for finding.
    }
  }
}

}  // namespace fettle
