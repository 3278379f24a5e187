#include "app/workers.h"

#include <csignal>

namespace fettle {

Workers::Workers(std::size_t threads) {
  // Signals are for the thread that waits for them; whoever works is not disturbed.
  sigset_t all{};
  sigset_t before{};
  sigfillset(&all);
  pthread_sigmask(SIG_SETMASK, &all, &before);
  for (std::size_t i = 0; i < threads; ++i) threads_.emplace_back([this] { work(); });
  pthread_sigmask(SIG_SETMASK, &before, nullptr);
}

Workers::~Workers() {
  {
    const std::lock_guard hold(mutex_);
    closing_ = true;
  }
  more_.notify_all();
  for (std::thread& each : threads_) each.join();
}

void Workers::hand(std::function<void()> work) {
  {
    const std::lock_guard hold(mutex_);
    waiting_.push_back(std::move(work));
  }
  more_.notify_one();
}

void Workers::work() {
  while (true) {
    std::function<void()> next;
    {
      std::unique_lock lock(mutex_);
      more_.wait(lock, [this] { return closing_ || !waiting_.empty(); });
      if (waiting_.empty()) return;
      next = std::move(waiting_.front());
      waiting_.pop_front();
    }
    next();
  }
}

}  // namespace fettle
