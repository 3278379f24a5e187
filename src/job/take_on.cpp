#include "job/take_on.h"

#include <algorithm>

#include "job/settings_in_use.h"
#include "job/steps_seen.h"
#include "job/studies.h"

namespace fettle {
namespace {

class TakingOn {
 public:
  TakingOn(Job& job, const std::string& event) : job_(job), event_(event) {}

  bool operator()(const JobOpened& opened) {
    job_.opened = Kept<JobOpened>{event_, opened};
    return true;
  }
  bool operator()(const EngineDescribed& engine) {
    job_.engine = Kept<EngineDescribed>{event_, engine};
    return true;
  }
  bool operator()(const LayoutChosen& chosen) {
    std::erase_if(job_.layouts, [&](const auto& each) { return each.value.kind == chosen.kind; });
    return add(job_.layouts, chosen);
  }
  bool operator()(const PartEntered& entered) {
    if (!add_named(job_.parts, entered.part)) return false;
    for (const auto& seen : job_.steps_seen) stand_at(job_.parts, seen.value);
    return true;
  }
  bool operator()(const FindingSeen& seen) { return add(job_.findings, seen.finding); }
  bool operator()(const GaugeRegistered& registered) { return add_named(job_.gauges, registered.gauge); }
  bool operator()(const SettingMade& made) { return !seen_in_use(made.setting.id) && add_named(job_.settings, made.setting); }
  bool operator()(const GaugeFoundOut& found_out) { return add(job_.found_out, found_out.found); }
  bool operator()(const ReadingTaken& taken) {
    const Reading& reading = taken.reading;
    if (moves_closing_zero(job_, reading)) return false;
    if (reading.supersedes && !set_aside(*reading.supersedes, reading.setting)) return false;
    return add(job_.readings, reading);
  }
  bool operator()(const LimitEntered& entered) { return add_named(job_.limits, entered.limit); }
  bool operator()(const SheetEntered&) { return false; }
  bool operator()(const RuleChosen& chosen) {
    job_.rule = chosen.rule;
    return true;
  }
  bool operator()(const EventWithdrawn&) { return false; }
  bool operator()(const FileAttached& attached) { return add(job_.files, attached); }
  bool operator()(const ZeroLooked&) { return false; }
  bool operator()(const TemperaturesTaken&) { return false; }
  bool operator()(const GaugeStudied& studied) {
    keep_study(job_, {event_, studied.study});
    return true;
  }
  bool operator()(const VerdictTaken& taken) {
    std::erase_if(job_.taken, [&](const auto& each) { return each.value.part == taken.part && each.value.limit == taken.limit; });
    return add(job_.taken, taken);
  }
  bool operator()(const StepSeen& seen) {
    stand_at(job_.parts, seen);
    return add(job_.steps_seen, seen);
  }
  bool operator()(const StripStepAnswered& answered) {
    std::erase_if(job_.strip_answers, [&](const auto& each) { return each.value.step == answered.step; });
    return add(job_.strip_answers, answered);
  }
  bool operator()(const QuestionAnswered& answered) {
    std::erase_if(job_.answers, [&](const auto& each) { return answers_same(each.value, answered); });
    return add(job_.answers, answered);
  }
  bool operator()(const PartsReady& ready) { return add(job_.ready, ready); }

 private:
  template <class T>
  bool add(std::vector<Kept<T>>& list, const T& value) {
    list.push_back({event_, value});
    return true;
  }

  /// What was withdrawn may have left its place to this one.
  template <class T>
  bool add_named(std::vector<Kept<T>>& list, const T& value) {
    const bool taken = std::any_of(list.begin(), list.end(), [&](const auto& each) { return each.value.id == value.id; });
    return !taken && job_.withdrawn.empty() && add(list, value);
  }

  [[nodiscard]] bool seen_in_use(const std::string& setting) const {
    const auto names_it = [&](const auto& each) { return each.value.setting == setting; };
    return std::any_of(job_.zero_looks.begin(), job_.zero_looks.end(), names_it) ||
           std::any_of(job_.temperatures.begin(), job_.temperatures.end(), names_it);
  }

  bool set_aside(const std::string& event, const std::string& setting) {
    auto& readings = job_.readings;
    const auto old = std::find_if(readings.rbegin(), readings.rend(), [&](const auto& each) { return each.event == event; });
    if (old == readings.rend() || old->value.setting != setting) return false;
    job_.superseded_readings.push_back(std::move(*old));
    readings.erase(std::next(old).base());
    return true;
  }

  Job& job_;
  const std::string& event_;
};

}  // namespace

bool take_on(Job& job, const EventEnvelope& event) {
  if (job.id.empty() || event.job != job.id) return false;
  if (!std::visit(TakingOn(job, event.id), event.payload)) return false;
  keep_reader(job, event);
  return true;
}

}  // namespace fettle
