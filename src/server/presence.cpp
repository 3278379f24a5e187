#include "server/presence.h"

#include <algorithm>

namespace fettle {

std::optional<PresentLine> Presence::come(const std::string& job, const PresentLine& person, std::int64_t now) {
  const std::lock_guard hold(mutex_);
  std::vector<At>& here = jobs_[job];
  if (person.holds == "round") {
    for (const At& each : here) {
      if (each.person.part == person.part && each.person.holds == "round" && each.person.device != person.device) return each.person;
    }
  }
  std::erase_if(here, [&](const At& each) { return each.person.device == person.device; });
  here.push_back({person, now});
  return std::nullopt;
}

void Presence::leave(const std::string& job, const std::string& device) {
  const std::lock_guard hold(mutex_);
  const auto found = jobs_.find(job);
  if (found == jobs_.end()) return;
  std::erase_if(found->second, [&](const At& each) { return each.person.device == device; });
  if (found->second.empty()) jobs_.erase(found);
}

std::vector<PresentLine> Presence::people(const std::string& job) {
  const std::lock_guard hold(mutex_);
  std::vector<PresentLine> out;
  const auto found = jobs_.find(job);
  if (found == jobs_.end()) return out;
  for (const At& each : found->second) out.push_back(each.person);
  return out;
}

std::vector<std::string> Presence::drop_gone(std::int64_t now, const std::function<bool(const std::string& device)>& listens) {
  const std::lock_guard hold(mutex_);
  std::vector<std::string> changed;
  for (auto& [job, here] : jobs_) {
    for (At& each : here) {
      if (listens(each.person.device)) each.last = now;
    }
    if (std::erase_if(here, [&](const At& each) { return now - each.last >= kGoneAfterMilliseconds; }) > 0) changed.push_back(job);
  }
  std::erase_if(jobs_, [](const auto& each) { return each.second.empty(); });
  return changed;
}

}  // namespace fettle
