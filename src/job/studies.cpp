#include "job/studies.h"

#include <map>
#include <set>

#include "gauging/studied_repeatability.h"

namespace fettle {

void keep_study(Job& job, Kept<StudiedGauge> study) {
  std::erase_if(job.studies, [&](const auto& each) { return each.value.gauge == study.value.gauge && each.value.person == study.value.person; });
  job.studies.push_back(std::move(study));
}

void keep_reader(Job& job, const EventEnvelope& event) {
  if (std::holds_alternative<ReadingTaken>(event.payload) && !event.who.empty()) job.readers.insert_or_assign(event.id, event.who);
}

std::string reader_of(const Job& job, const Kept<Reading>& reading) {
  if (reading.value.read_by) return *reading.value.read_by;
  const auto who = job.readers.find(reading.event);
  return who == job.readers.end() ? std::string() : who->second;
}

std::vector<const StudiedGauge*> studies_of(const Job& job, const std::string& part) {
  std::map<std::string, std::string> gauges;
  for (const Kept<Setting>& each : job.settings) gauges.emplace(each.value.id, each.value.gauge);
  std::set<const StudiedGauge*> used;
  for (const Kept<Reading>& each : job.readings) {
    const auto gauge = gauges.find(each.value.setting);
    if (each.value.part != part || each.value.flag != ReadingFlag::none || gauge == gauges.end()) continue;
    const StudiedGauge* best = nullptr;
    for (const Kept<StudiedGauge>& study : job.studies) {
      if (goes_before(study.value, best, {gauge->second, reader_of(job, each)})) best = &study.value;
    }
    if (best != nullptr) used.insert(best);
  }
  std::vector<const StudiedGauge*> out;
  for (const Kept<StudiedGauge>& study : job.studies) {
    if (used.contains(&study.value)) out.push_back(&study.value);
  }
  return out;
}

}  // namespace fettle
