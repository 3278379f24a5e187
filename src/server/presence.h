#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "wire/border_json.h"

namespace fettle {

/// Who is at which part of a job. A round is one device's at a time; looking, or measuring a second time, is anybody's. Kept in memory alone:
/// who is there says so again. Times in milliseconds of a clock that goes forward. Many threads may call it.
class Presence {
 public:
  static constexpr std::int64_t kGoneAfterMilliseconds = 30'000;

  /// Where the device is now, in place of where it was in this job. Whoever holds the round that is asked for; nothing: it was given.
  [[nodiscard]] std::optional<PresentLine> come(const std::string& job, const PresentLine& person, std::int64_t now);
  void leave(const std::string& job, const std::string& device);
  [[nodiscard]] std::vector<PresentLine> people(const std::string& job);

  /// Drops those whose device has not listened for a while. Jobs where somebody was dropped.
  [[nodiscard]] std::vector<std::string> drop_gone(std::int64_t now, const std::function<bool(const std::string& device)>& listens);

 private:
  struct At {
    PresentLine person;
    std::int64_t last;
  };
  std::mutex mutex_;
  std::map<std::string, std::vector<At>> jobs_;
};

}  // namespace fettle
