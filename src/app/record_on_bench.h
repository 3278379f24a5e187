#pragma once

#include <string>

#include "app/recorded_job.h"
#include "app/take_in.h"
#include "app/open_folder.h"
#include "base/clock.h"
#include "base/progress.h"
#include "store/memory_store.h"

// For the tests of app: a record in memory with the example in it, under a clock that is wound by hand.
namespace fettle {

class WoundClock final : public Clock {
 public:
  [[nodiscard]] std::string now() override { return at; }
  std::string at = "2031-05-04T08:12:00.000000Z";
};

class GoesOn final : public Progress {
 public:
  [[nodiscard]] bool tell(long, long) override { return true; }
};

inline const std::string kExample = std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3";
inline const std::string kSetAfresh = std::string(FETTLE_SOURCE_DIR) + "/examples/curlew-3-set-afresh";

struct RecordOnBench {
  WoundClock clock;
  MemoryStore store{clock};
  Doing doing{"M", "2031-05-04T08:12:00.000000Z"};

  [[nodiscard]] Result<TakenIn> take(const FolderTexts& texts, std::optional<std::string> corrected = {}) {
    return take_in(store, texts, corrected, doing);
  }
  [[nodiscard]] RecordedJob recorded(const std::string& job) { return open_recorded(store, job).value(); }
};

/// One line of the readings changed.
inline FolderTexts with_line(FolderTexts texts, const std::string& old, const std::string& line) {
  const std::size_t at = texts.readings_csv.find(old);
  FETTLE_ASSERT(at != std::string::npos, old);
  texts.readings_csv.replace(at, old.size(), line);
  return texts;
}

/// The first problem's code, or nothing.
template <class T>
std::string refused(const Result<T>& result) {
  return result.ok() ? std::string() : result.problems().front().code;
}

}  // namespace fettle
