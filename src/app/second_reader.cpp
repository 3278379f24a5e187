#include "app/second_reader.h"

#include <algorithm>
#include <set>
#include <unordered_set>
#include <utility>
#include <vector>

namespace fettle {
namespace {

/// What one person read.
class OwnReadings {
 public:
  OwnReadings(const RecordedJob& recorded, const std::string& who) : who_(who) {
    for (const EventEnvelope& each : recorded.events) {
      if (each.who == who) sent_.insert(each.id);
    }
  }
  [[nodiscard]] bool operator()(const Kept<Reading>& reading) const {
    return reading.value.read_by ? *reading.value.read_by == who_ : sent_.contains(reading.event);
  }

 private:
  const std::string& who_;
  std::unordered_set<std::string> sent_;
};

}  // namespace

Job for_second_reader(const RecordedJob& recorded, const std::string& part, const std::string& who) {
  const OwnReadings own(recorded, who);
  Job out = recorded.job;
  std::erase_if(out.readings, [&](const Kept<Reading>& each) { return each.value.part == part && !own(each); });
  return out;
}

bool reads_second(const RecordedJob& recorded, const ReadingAct& act, const std::string& who) {
  std::vector<const Kept<Reading>*> of_part;
  std::set<std::pair<std::string, std::string>> of_own = {{act.station, act.direction}};
  bool twice = false;
  for (const Kept<Reading>& each : recorded.job.readings) {
    if (each.value.part != act.part || each.value.flag != ReadingFlag::none || each.event == act.supersedes) continue;
    of_part.push_back(&each);
    twice = !of_own.emplace(each.value.station, each.value.direction).second || twice;
  }
  if (!twice) return false;  // most readings: no place has two, and whose they are need not be looked up
  const OwnReadings own(recorded, who);
  of_own = {{act.station, act.direction}};
  for (const Kept<Reading>* each : of_part) {
    if (own(*each)) of_own.emplace(each->value.station, each->value.direction);
  }
  return std::any_of(of_part.begin(), of_part.end(), [&](const Kept<Reading>* each) {
    return !own(*each) && of_own.contains({each->value.station, each->value.direction});
  });
}

}  // namespace fettle
