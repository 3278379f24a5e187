#include "job/settings_in_use.h"

#include <algorithm>
#include <map>

#include "gauging/reading_moment.h"

namespace fettle {
namespace {

struct Look {
  ZeroCheck check;
  bool closes;
};
using Looks = std::map<ReadingMoment, Look>;

std::map<std::string, Looks> looks_by_setting(const Job& job) {
  std::map<std::string, Looks> out;
  for (const Kept<ZeroLooked>& each : job.zero_looks) {
    const ZeroLooked& look = each.value;
    Looks& looks = out[look.setting];
    const ReadingMoment moment = moment_in(look.round, look.after_order);
    const auto before = looks.find(moment);
    const bool closes = look.closes || (before != looks.end() && before->second.closes);
    looks.insert_or_assign(moment, Look{{look.round, look.after_order, look.shows}, closes});
  }
  return out;
}

bool is_after(const Reading& reading, const ReadingMoment& moment) { return reading.order && moment_in(reading.round, *reading.order) > moment; }

bool is_last(const Job& job, const std::string& setting, const ReadingMoment& moment) {
  return std::none_of(job.readings.begin(), job.readings.end(),
                      [&](const auto& each) { return each.value.setting == setting && is_after(each.value, moment); });
}

void take_looks(const Job& job, Looks looks, Setting& setting) {
  const bool any_closes = std::any_of(looks.begin(), looks.end(), [](const auto& each) { return each.second.closes; });
  if (any_closes) setting.closing_zero.reset();
  const auto last = std::prev(looks.end());
  if (last->second.closes && is_last(job, setting.id, last->first)) {
    setting.closing_zero = last->second.check.shows;
    looks.erase(last);
  }
  if (looks.empty()) return;
  if (!setting.checks) setting.checks.emplace();
  for (auto& [moment, look] : looks) setting.checks->push_back(std::move(look.check));
}

Kept<Setting>* setting_of(Job& job, const std::string& id) {
  const auto found = std::find_if(job.settings.begin(), job.settings.end(), [&](const auto& each) { return each.value.id == id; });
  return found == job.settings.end() ? nullptr : &*found;
}

}  // namespace

void see_in_use(Job& job) {
  for (const Kept<TemperaturesTaken>& each : job.temperatures) {
    Kept<Setting>* setting = setting_of(job, each.value.setting);
    if (setting == nullptr) continue;
    if (each.value.part) setting->value.part_temperature = each.value.part;
    if (each.value.master) setting->value.master_temperature = each.value.master;
  }
  for (auto& [id, looks] : looks_by_setting(job)) {
    if (Kept<Setting>* setting = setting_of(job, id)) take_looks(job, std::move(looks), setting->value);
  }
}

bool moves_closing_zero(const Job& job, const Reading& reading) {
  return std::any_of(job.zero_looks.begin(), job.zero_looks.end(), [&](const Kept<ZeroLooked>& each) {
    const ZeroLooked& look = each.value;
    if (look.setting != reading.setting || !look.closes) return false;
    return reading.supersedes.has_value() || is_after(reading, moment_in(look.round, look.after_order));
  });
}

}  // namespace fettle
