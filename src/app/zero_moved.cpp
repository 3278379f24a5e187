#include "app/zero_moved.h"

#include <algorithm>

#include "app/bench.h"
#include "app/part_words.h"
#include "app/place_sizes.h"
#include "gauging/reading_moment.h"

namespace fettle {
namespace {

constexpr std::int64_t kStillFine = 2;  // divisions

bool under(const Kept<Reading>& kept, const std::string& setting) { return kept.value.setting == setting && kept.value.flag == ReadingFlag::none; }

/// How much larger the master seems at the end, where that is too much.
std::optional<Ratio> too_far(const Job& job, const Kept<Setting>& setting) {
  Problems other;
  const SettingAtHand at_hand = setting_at_hand(job, setting, other);
  if (!at_hand.known || !at_hand.known->closing_difference || !at_hand.known->gauge->division) return std::nullopt;
  const Ratio by = *at_hand.known->closing_difference;
  return absolute(by) > at_hand.known->gauge->division->ratio() * Ratio(kStillFine) ? std::optional(by) : std::nullopt;
}

std::vector<const Kept<Reading>*> in_their_order(const Job& job, const std::string& setting) {
  std::vector<const Kept<Reading>*> out;
  for (const auto& kept : job.readings) {
    if (under(kept, setting)) out.push_back(&kept);
  }
  const bool ordered = std::all_of(out.begin(), out.end(), [](const auto* each) { return each->value.order.has_value(); });
  if (!ordered) return out;  // as they came
  std::stable_sort(out.begin(), out.end(), [](const auto* a, const auto* b) { return moment_in(a->value.round, *a->value.order) < moment_in(b->value.round, *b->value.order); });
  return out;
}

bool same_place(const Reading& a, const Reading& b) { return a.part == b.part && a.station == b.station && a.direction == b.direction; }

/// Under a setting that was made later.
bool read_since(const Job& job, const Reading& reading) {
  const auto made = [&](const std::string& id) { return std::find_if(job.settings.begin(), job.settings.end(), [&](const auto& each) { return each.value.id == id; }); };
  const auto own = made(reading.setting);
  return std::any_of(job.readings.begin(), job.readings.end(), [&](const auto& each) {
    return each.value.flag == ReadingFlag::none && same_place(each.value, reading) && made(each.value.setting) > own;
  });
}

}  // namespace

std::optional<ZeroMoved> zero_moved(const Job& job, const Kept<Setting>& setting) {
  const auto by = too_far(job, setting);
  if (!by) return std::nullopt;
  ZeroMoved out{&setting, *by, {}, {}};
  for (const auto& kept : job.parts) {
    const auto readings = std::count_if(job.readings.begin(), job.readings.end(), [&](const auto& each) { return under(each, setting.value.id) && each.value.part == kept.value.id; });
    if (readings > 0) out.hang.emplace_back(&kept.value, static_cast<std::size_t>(readings));
  }
  const auto readings = in_their_order(job, setting.value.id);
  if (readings.empty()) return std::nullopt;
  std::vector<const Reading*> ends = {&readings.front()->value};
  if (!same_place(readings.back()->value, readings.front()->value)) ends.push_back(&readings.back()->value);
  for (const Reading* each : ends) {
    const Part* part = part_of(job, each->part);
    if (part == nullptr || catalogue().kind(part->kind) == nullptr || read_since(job, *each)) continue;
    const PartOnBench on = on_bench(job, *part, catalogue());
    const auto station = on.layout.find_station(each->station);
    const auto direction = on.layout.find_direction(each->direction);
    if (station && direction) out.again.push_back({part, on.layout.cell(*station, *direction)});
  }
  return out;
}

std::optional<ZeroMoved> zero_moved_lately(const Job& job, const Kept<Setting>& setting) {
  if (setting.value.closing_zero) return zero_moved(job, setting);
  const Kept<Setting>* before = nullptr;
  for (const auto& each : job.settings) {
    if (each.value.id == setting.value.id) break;
    if (each.value.gauge == setting.value.gauge) before = &each;
  }
  return before == nullptr ? std::nullopt : zero_moved(job, *before);
}

}  // namespace fettle
