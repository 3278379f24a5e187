#include "app/judge_all.h"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <map>
#include <mutex>
#include <optional>
#include <thread>

#include "app/index_job.h"

namespace fettle {
namespace {

/// What became of one job.
struct Done {
  bool skipped = false;
  bool judged = false;
  bool compared = false;
  std::vector<ChangedVerdict> changed;
  std::vector<StoreFault> refused;
};

std::vector<ChangedVerdict> differences(const StoredJudgement& before, const std::vector<VerdictLine>& were, const std::vector<VerdictLine>& are) {
  std::map<std::pair<std::string, std::string>, std::pair<VerdictLine, VerdictLine>> both;
  const auto key = [](const VerdictLine& line) { return std::pair(line.part, line.limit); };
  for (const VerdictLine& each : were) both[key(each)].first = each;
  for (const VerdictLine& each : are) both[key(each)].second = each;
  std::vector<ChangedVerdict> out;
  for (const auto& [place, pair] : both) {
    if (pair.first != pair.second) out.push_back({before.job, before.program, pair.first, pair.second});
  }
  return out;
}

void compare(const StoredJudgement& before, const std::vector<VerdictLine>& now, Done& done) {
  const Result<std::vector<VerdictLine>> were = read_verdict_lines(before.verdicts, {before.job, std::nullopt, std::nullopt});
  if (!were.ok()) {
    for (const Problem& each : were.problems()) done.refused.push_back({before.job, each});
    return;
  }
  done.compared = true;
  done.changed = differences(before, were.value(), now);
}

Done judge_one(Store& store, const std::string& job, bool again) {
  Done done;
  Problems problems;
  const Result<RecordedJob> recorded = open_recorded(store, job);
  if (!recorded.ok()) {
    for (const Problem& each : recorded.problems()) done.refused.push_back({job, each});
    return done;
  }
  // What another version made of the same events is what is of interest; where there is none, judging again is compared with what this one made.
  std::optional<StoredJudgement> own;
  std::optional<StoredJudgement> other;
  for (const StoredJudgement& each : store.judgements(job)) {
    if (each.log_hash == recorded.value().accepted.back().hash) (each.program == program_version() ? own : other) = each;
  }
  const auto row = store.row(job);
  done.skipped = own && !again && row && row->events == own->events;
  std::vector<VerdictLine> lines;
  if (done.skipped) {
    // Compared all the same: a run that was stopped may not have told it.
    if (other) lines = take(read_verdict_lines(own->verdicts, {job, std::nullopt, std::nullopt}), problems).value_or(std::vector<VerdictLine>{});
  } else {
    JudgedRecord now = index_job(store, recorded.value());
    problems = std::move(now.problems);
    done.judged = problems.empty();
    lines = std::move(now.lines);
  }
  for (const Problem& each : problems) done.refused.push_back({job, each});
  const auto& before = other ? other : again ? own : std::nullopt;
  if (before && problems.empty()) compare(*before, lines, done);
  return done;
}

/// Jobs handed out in their order to a few threads; results wait in their places.
class JudgingAll {
 public:
  JudgingAll(Store& store, const JudgeAllOptions& options) : store_(store), options_(options), jobs_(store.jobs()), results_(jobs_.size()) {}

  JudgedAll run(Progress& progress) {
    std::vector<std::thread> threads;
    const std::size_t wanted = std::max<std::size_t>(1, std::min(options_.threads, jobs_.size()));
    running_ = wanted;
    for (std::size_t i = 0; i < wanted; ++i) threads.emplace_back([this] { work(); });
    watch(progress);
    for (std::thread& each : threads) each.join();
    if (failure_) std::rethrow_exception(failure_);
    return summed();
  }

 private:
  void work() {
    while (!stop_) {
      const std::size_t at = next_.fetch_add(1);
      if (at >= jobs_.size()) break;
      try {
        results_[at] = judge_one(store_, jobs_[at], options_.again);
      } catch (...) {
        const std::lock_guard hold(lock_);
        if (!failure_) failure_ = std::current_exception();
        stop_ = true;
      }
      const std::lock_guard hold(lock_);
      ++done_;
      changed_.notify_all();
    }
    const std::lock_guard hold(lock_);
    --running_;
    changed_.notify_all();
  }

  void watch(Progress& progress) {
    std::unique_lock hold(lock_);
    while (running_ > 0) {
      const std::size_t done = done_;
      hold.unlock();
      if (!progress.tell(static_cast<long>(done), static_cast<long>(jobs_.size()))) stop_ = true;
      hold.lock();
      changed_.wait(hold, [&] { return done_ != done || running_ == 0; });
    }
    (void)progress.tell(static_cast<long>(done_), static_cast<long>(jobs_.size()));
  }

  JudgedAll summed() {
    JudgedAll out{static_cast<std::int64_t>(jobs_.size()), 0, 0, 0, {}, {}, false};
    for (std::optional<Done>& each : results_) {
      if (!each) {
        out.stopped = true;
        continue;
      }
      out.judged += each->judged ? 1 : 0;
      out.skipped += each->skipped ? 1 : 0;
      out.compared += each->compared ? 1 : 0;
      out.changed.insert(out.changed.end(), each->changed.begin(), each->changed.end());
      out.refused.insert(out.refused.end(), each->refused.begin(), each->refused.end());
    }
    return out;
  }

  Store& store_;
  const JudgeAllOptions options_;
  const std::vector<std::string> jobs_;
  std::vector<std::optional<Done>> results_;
  std::atomic<std::size_t> next_{0};
  std::atomic<bool> stop_{false};
  std::mutex lock_;
  std::condition_variable changed_;
  std::size_t done_ = 0;
  std::size_t running_ = 0;
  std::exception_ptr failure_;
};

}  // namespace

JudgedAll judge_all(Store& store, const JudgeAllOptions& options, Progress& progress) { return JudgingAll(store, options).run(progress); }

}  // namespace fettle
