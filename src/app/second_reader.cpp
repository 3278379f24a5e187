#include "app/second_reader.h"

#include <unordered_set>

namespace fettle {

Job for_second_reader(const RecordedJob& recorded, const std::string& part, const std::string& who) {
  std::unordered_set<std::string> sent;  // events of this person
  for (const EventEnvelope& each : recorded.events) {
    if (each.who == who) sent.insert(each.id);
  }
  Job out = recorded.job;
  std::erase_if(out.readings, [&](const Kept<Reading>& each) {
    const bool own = each.value.read_by ? *each.value.read_by == who : sent.contains(each.event);
    return each.value.part == part && !own;
  });
  return out;
}

}  // namespace fettle
