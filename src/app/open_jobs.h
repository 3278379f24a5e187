#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "app/judge_job.h"
#include "app/job_at_work.h"
#include "app/recorded_job.h"

namespace fettle {

/// Jobs of a record that a long-lived program works on: read once, then only what is new; judged once for each state of the log. Many
/// threads may ask at once; one job is worked on by one thread at a time, others are not held up by it.
class OpenJobs {
 public:
  explicit OpenJobs(Store& store);
  ~OpenJobs();

  /// As the record holds it now. Problems: those of open_recorded.
  [[nodiscard]] Result<std::shared_ptr<const RecordedJob>> job(const std::string& id);

  /// The same, judged by its own rule; of an unchanged log the same object as before. Problems: those of open_recorded and judge_job.
  [[nodiscard]] Result<std::shared_ptr<const JudgedJob>> judged(const std::string& id);

  /// Lets `work` put events to the job, as the record holds it now, and appends what it took on; when this returns they are durable. Done
  /// again where another program wrote to the job meanwhile. Gives the acceptance of each. The log is not read and not folded for it,
  /// unless something is withdrawn. Problems: those of open_recorded and of Store::accept_after.
  using Work = std::function<void(JobAtWork&)>;
  [[nodiscard]] Result<std::vector<Accepted>> append(const std::string& id, const Work& work);

 private:
  struct Held;
  [[nodiscard]] std::shared_ptr<Held> held(const std::string& id);

  Store& store_;
  std::mutex mutex_;  ///< of the map alone
  std::map<std::string, std::shared_ptr<Held>> jobs_;
};

}  // namespace fettle
