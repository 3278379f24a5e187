#pragma once

#include <condition_variable>
#include <exception>
#include <functional>
#include <mutex>
#include <vector>

#include "store_sqlite/connection.h"

namespace fettle::sqlite {

/// The one writer of a store. Callers queue; the first that finds it free writes for all that wait, in one transaction with one wait for
/// the disk, then wakes them. No thread of its own.
class GroupCommit {
 public:
  /// Writes through the connection. False: take back all that it wrote. May be called again from the beginning, where the first try was
  /// lost with the work of others; so it must set its results anew each time.
  using Work = std::function<bool(Connection&)>;

  explicit GroupCommit(Connection& writer) : writer_(&writer) {}

  /// Returns when the work outlives a power cut, or was taken back. Throws what the work threw, or StoreError: nothing was kept then.
  void run(const Work& work);

 private:
  struct Call {
    const Work* work;
    std::exception_ptr failed;
    bool done;
  };

  void lead(std::unique_lock<std::mutex>& lock);
  void write_together(const std::vector<Call*>& calls);
  void write_alone(Call& call);
  void write_within(Call& call);

  Connection* writer_;
  std::mutex mutex_;
  std::condition_variable turn_;
  std::vector<Call*> waiting_;
  bool writing_ = false;
};

}  // namespace fettle::sqlite
