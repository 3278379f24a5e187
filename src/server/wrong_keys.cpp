#include "server/wrong_keys.h"

namespace fettle {
namespace {

/// So many addresses are remembered; a crowd of them must not fill the memory.
constexpr std::size_t kMostAddresses = 10'000;

}  // namespace

bool WrongKeys::must_wait(const std::string& address, std::int64_t now) {
  const std::lock_guard hold(mutex_);
  const auto found = tries_.find(address);
  return found != tries_.end() && found->second.wrong >= most_ && now - found->second.last < wait_;
}

void WrongKeys::wrong(const std::string& address, std::int64_t now) {
  const std::lock_guard hold(mutex_);
  if (tries_.size() >= kMostAddresses) std::erase_if(tries_, [&](const auto& each) { return now - each.second.last >= wait_; });
  if (tries_.size() >= kMostAddresses && tries_.find(address) == tries_.end()) return;
  Tries& tries = tries_[address];
  ++tries.wrong;
  tries.last = now;
}

void WrongKeys::right(const std::string& address) {
  const std::lock_guard hold(mutex_);
  tries_.erase(address);
}

}  // namespace fettle
