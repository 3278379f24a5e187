#pragma once

#include <cstdint>
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
/// threads may ask at once; one job is worked on by one thread at a time and judged by one, others are not held up by it.
class OpenJobs {
 public:
  using Judge = std::function<Result<JudgedJob>(const Job& job, const JudgeOptions& options)>;
  explicit OpenJobs(Store& store, Judge judge = judge_job);
  ~OpenJobs();

  /// As the record holds it now. Problems: those of open_recorded.
  [[nodiscard]] Result<std::shared_ptr<const RecordedJob>> job(const std::string& id);

  /// The same, judged by its own rule; of an unchanged log the same object as before. What is put to the job meanwhile does not wait for
  /// it, and is not in it. Problems: those of open_recorded and judge_job.
  [[nodiscard]] Result<std::shared_ptr<const JudgedJob>> judged(const std::string& id);

  /// The same, with where the log ended that was judged; 0: there is no such job.
  struct JudgedAt {
    Result<std::shared_ptr<const JudgedJob>> judged;
    std::int64_t end;
  };
  [[nodiscard]] JudgedAt judged_at(const std::string& id);

  /// Lets `work` put events to the job, as the record holds it now, and appends what it took on; when this returns they are durable. Done
  /// again where another program wrote to the job meanwhile. Gives the acceptance of each. The log is not read and not folded for it,
  /// unless something is withdrawn. Problems: those of open_recorded and of Store::accept_after.
  using Work = std::function<void(JobAtWork&)>;
  [[nodiscard]] Result<std::vector<Accepted>> append(const std::string& id, const Work& work);

  /// How many jobs are kept in memory.
  [[nodiscard]] std::size_t count();

  /// Lists what is to be found again, with the words of a judgement where one was asked for: jobs whose log did not go on since the last
  /// call, so that nobody at work waits for it; `all`: the others too. What the store refuses is tried again the next time.
  void list(bool all);

 private:
  struct Held;
  [[nodiscard]] std::shared_ptr<Held> held(const std::string& id);
  /// A name that no job has leaves nothing behind.
  void forget(const std::string& id, const Problems& problems);

  Store& store_;
  const Judge judge_;
  std::mutex mutex_;  ///< of the map alone
  std::map<std::string, std::shared_ptr<Held>> jobs_;
};

}  // namespace fettle
