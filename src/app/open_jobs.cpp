#include "app/open_jobs.h"

#include <optional>

#include "app/job_memory.h"

namespace fettle {

struct OpenJobs::Held {
  std::mutex mutex;
  std::optional<RecordedJob> working;          ///< nobody else sees it
  std::shared_ptr<const RecordedJob> shown;    ///< a copy for those who ask, or null
  std::shared_ptr<const JudgedJob> judged;     ///< of `working`, or null
  JobMemory memory;

  void went_on() {
    shown = nullptr;
    judged = nullptr;
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

OpenJobs::OpenJobs(Store& store) : store_(store) {}
OpenJobs::~OpenJobs() = default;

std::shared_ptr<OpenJobs::Held> OpenJobs::held(const std::string& id) {
  const std::lock_guard lock(mutex_);
  auto& job = jobs_[id];
  if (!job) job = std::make_shared<Held>();
  return job;
}

Result<std::shared_ptr<const RecordedJob>> OpenJobs::job(const std::string& id) {
  const auto job = held(id);
  const std::lock_guard lock(job->mutex);
  if (Problems problems = job->refresh(store_, id); !problems.empty()) return problems;
  if (!job->shown) job->shown = std::make_shared<const RecordedJob>(*job->working);
  return job->shown;
}

Result<std::shared_ptr<const JudgedJob>> OpenJobs::judged(const std::string& id) {
  const auto job = held(id);
  const std::lock_guard lock(job->mutex);
  if (Problems problems = job->refresh(store_, id); !problems.empty()) return problems;
  if (job->judged) return job->judged;
  JudgeOptions options{{}, usual_accuracy(), JudgeDetail::side_by_side, nullptr, &job->memory};
  job->memory.next_round();
  auto judged = judge_job(job->working->job, options);
  if (!judged.ok()) return judged.problems();
  job->judged = std::make_shared<const JudgedJob>(std::move(judged).value());
  return job->judged;
}

Result<std::vector<Accepted>> OpenJobs::append(const std::string& id, const Work& work) {
  const auto job = held(id);
  const std::lock_guard lock(job->mutex);
  return while_overtaken([&] { return job->append(store_, id, work); });
}

}  // namespace fettle
