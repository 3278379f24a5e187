#include "store_sqlite/readers.h"

namespace fettle::sqlite {
namespace {

constexpr std::size_t kMostReaders = 4;

}  // namespace

std::unique_ptr<Connection> Readers::take() {
  std::unique_lock lock(mutex_);
  free_.wait(lock, [&] { return !idle_.empty() || opened_ < kMostReaders; });
  if (!idle_.empty()) {
    auto connection = std::move(idle_.back());
    idle_.pop_back();
    return connection;
  }
  ++opened_;
  try {
    return std::make_unique<Connection>(path_, Access::read, busy_wait_);
  } catch (...) {
    --opened_;
    free_.notify_one();
    throw;
  }
}

void Readers::give_back(std::unique_ptr<Connection> connection) {
  const std::lock_guard lock(mutex_);
  idle_.push_back(std::move(connection));
  free_.notify_one();
}

}  // namespace fettle::sqlite
