#include "app/open_jobs.h"

#include <optional>

#include "app/job_memory.h"

namespace fettle {

struct OpenJobs::Held {
  std::mutex mutex;
  std::shared_ptr<const RecordedJob> recorded;
  std::shared_ptr<const JudgedJob> judged;  ///< of `recorded`, or null
  JobMemory memory;
};

OpenJobs::OpenJobs(Store& store) : store_(store) {}
OpenJobs::~OpenJobs() = default;

std::shared_ptr<OpenJobs::Held> OpenJobs::held(const std::string& id) {
  const std::lock_guard lock(mutex_);
  auto& job = jobs_[id];
  if (!job) job = std::make_shared<Held>();
  return job;
}

namespace {

/// Reads the job again where its log went on.
Problems refresh(Store& store, const std::string& id, std::shared_ptr<const RecordedJob>& recorded, std::shared_ptr<const JudgedJob>& judged) {
  const std::optional<Accepted> last = store.last(id);
  if (recorded && last && recorded->accepted.back().hash == last->hash) return {};
  auto read = open_recorded(store, id);
  if (!read.ok()) return read.problems();
  recorded = std::make_shared<const RecordedJob>(std::move(read).value());
  judged = nullptr;
  return {};
}

}  // namespace

Result<std::shared_ptr<const RecordedJob>> OpenJobs::job(const std::string& id) {
  const auto job = held(id);
  const std::lock_guard lock(job->mutex);
  if (Problems problems = refresh(store_, id, job->recorded, job->judged); !problems.empty()) return problems;
  return job->recorded;
}

Result<std::shared_ptr<const JudgedJob>> OpenJobs::judged(const std::string& id) {
  const auto job = held(id);
  const std::lock_guard lock(job->mutex);
  if (Problems problems = refresh(store_, id, job->recorded, job->judged); !problems.empty()) return problems;
  if (job->judged) return job->judged;
  JudgeOptions options{{}, usual_accuracy(), JudgeDetail::side_by_side, nullptr, &job->memory};
  job->memory.next_round();
  auto judged = judge_job(job->recorded->job, options);
  if (!judged.ok()) return judged.problems();
  job->judged = std::make_shared<const JudgedJob>(std::move(judged).value());
  return job->judged;
}

}  // namespace fettle
