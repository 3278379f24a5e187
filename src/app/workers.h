#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <functional>
#include <mutex>
#include <thread>
#include <vector>

namespace fettle {

/// A few threads that do what is handed to them, begun in the order it came.
class Workers {
 public:
  explicit Workers(std::size_t threads);
  /// Does all that was handed over before it goes.
  ~Workers();
  Workers(const Workers&) = delete;
  Workers& operator=(const Workers&) = delete;

  /// The work may not throw: nobody is there to catch it.
  void hand(std::function<void()> work);

 private:
  void work();

  std::mutex mutex_;
  std::condition_variable more_;
  std::deque<std::function<void()>> waiting_;
  bool closing_ = false;
  std::vector<std::thread> threads_;
};

}  // namespace fettle
