#pragma once

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <utility>
#include <vector>

#include "base/progress.h"
#include "numeric/normal_points.h"

namespace fettle {

/// Progress from several threads, told one at a time.
class SharedProgress {
 public:
  SharedProgress(Progress& progress, long all) : progress_(progress), all_(all) {}

  /// False once anybody should stop.
  bool add(long done) {
    const std::lock_guard<std::mutex> lock(mutex_);
    done_ += done;
    if (!stop_ && !progress_.tell(done_, all_)) stop_ = true;
    return !stop_;
  }
  [[nodiscard]] bool stopped() const { return stop_; }

 private:
  Progress& progress_;
  std::mutex mutex_;
  long done_ = 0;
  long all_;
  std::atomic<bool> stop_ = false;
};

/// `one(number, points)` of engines 0 to `engines` − 1 on several threads, each with points of its own of `seed`; the result does not depend
/// on how many. Empty if it was told to stop. What one engine throws is thrown again when all threads are done.
template <class Each, class One>
[[nodiscard]] std::vector<Each> over_engines(std::size_t engines, unsigned threads, std::uint64_t seed, SharedProgress& progress, const One& one) {
  constexpr std::size_t kBlock = 16;  // engines that a thread takes at a time
  std::vector<Each> out(engines);
  std::atomic<std::size_t> next = 0;
  std::mutex fault_mutex;
  std::exception_ptr fault;
  const auto work = [&] {
    try {
      NormalPoints points(seed);
      for (;;) {
        const std::size_t first = next.fetch_add(kBlock);
        if (first >= engines || progress.stopped()) return;
        const std::size_t last = std::min(first + kBlock, engines);
        for (std::size_t number = first; number < last; ++number) out[number] = one(number, points);
        if (!progress.add(static_cast<long>(last - first))) return;
      }
    } catch (...) {
      const std::lock_guard<std::mutex> lock(fault_mutex);
      fault = std::current_exception();
      next = engines;
    }
  };
  std::vector<std::thread> others;
  for (unsigned t = 1; t < threads; ++t) others.emplace_back(work);
  work();
  for (std::thread& each : others) each.join();
  if (fault) std::rethrow_exception(fault);
  if (progress.stopped()) out.clear();
  return out;
}

}  // namespace fettle
