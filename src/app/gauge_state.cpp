#include "app/gauge_state.h"

#include <algorithm>
#include <charconv>

#include "app/bench.h"
#include "base/assertion.h"
#include "base/day.h"

namespace fettle {
namespace {

constexpr std::int64_t kSecondsPerMinute = 60;

/// What a device did while the server was away is older than its acceptance; a device whose clock runs ahead made nothing later than that.
std::optional<std::int64_t> seconds_of_event(const RecordedJob& recorded, const std::string& event) {
  const auto at = place_in_log(recorded, event);
  if (!at) return std::nullopt;
  const auto accepted = utc_seconds(recorded.accepted[*at].accepted_at);
  const auto made = moment_seconds(recorded.events[*at].made_at);
  return accepted && made ? std::min(accepted, made) : accepted;
}

const std::string& who_made(const RecordedJob& recorded, const std::string& event) {
  static const std::string kNobody;
  const auto at = place_in_log(recorded, event);
  return at ? recorded.events[*at].who : kNobody;
}

/// The last who read something under the setting, or nobody.
std::string last_reader(const RecordedJob& recorded, const std::string& setting) {
  for (auto each = recorded.events.rbegin(); each != recorded.events.rend(); ++each) {
    const auto* taken = std::get_if<ReadingTaken>(&each->payload);
    if (taken != nullptr && taken->reading.setting == setting) return taken->reading.read_by.value_or(each->who);
  }
  return "";
}

std::optional<int> whole(const std::string& text) {
  int out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  return error == std::errc() && end == text.data() + text.size() ? std::optional(out) : std::nullopt;
}

std::string round_of(const RecordedJob& recorded, const std::string& setting) {
  const auto& readings = recorded.job.readings;
  for (auto each = readings.rbegin(); each != readings.rend(); ++each) {
    if (each->value.setting == setting && !each->value.round.empty()) return each->value.round;
  }
  return next_round(recorded.job);
}

bool reads_its_quantities(const GaugePreset& preset, const Layout& layout) {
  for (std::size_t cell = 0; cell < layout.cells(); ++cell) {
    if (layout.there(cell) && layout.quantity(cell) == preset.measures) return true;
  }
  return false;
}

/// Locked on one part of a pair a comparison gauge reads the clearance.
bool reads_the_pair(const GaugePreset& preset, const PartOnBench& part) {
  const Kind* kind = catalogue().kind(part.part.kind);
  return kind != nullptr && !kind->members.empty() && std::find(kind->gauges.begin(), kind->gauges.end(), preset.id) != kind->gauges.end();
}

std::optional<Message> why_not(const Job& job, const GaugeNow& gauge, const PartOnBench& part) {
  if (!gauge.known) return Message{"gauge_now.unsound", {}};
  const GaugePreset& preset = *gauge.preset;
  if (gauge.sort == GaugeSort::master) return Message{"gauge_now.master_only", {}};
  if (!reads_its_quantities(preset, part.layout)) return Message{"gauge_now.other_quantity", {}};
  const bool held_to_it = part.feature == Feature::figure && (gauge.sort == GaugeSort::direct || reads_the_pair(preset, part));
  if (preset.touches && *preset.touches != part.feature && !held_to_it) return Message{"gauge_now.feature." + std::string(feature_name(*preset.touches)), {}};
  const auto size = part.feature == Feature::figure ? std::nullopt : size_of_part(job, part);
  const auto from = gauge.known->kit && gauge.known->kit->range_from ? gauge.known->kit->range_from : preset.range_from;
  const auto to = gauge.known->kit && gauge.known->kit->range_to ? gauge.known->kit->range_to : preset.range_to;
  if (size && ((from && *size < *from) || (to && *size > *to))) return Message{"gauge_now.range", {}};
  return std::nullopt;
}

UnitId read_in(const GaugePreset& preset, const std::optional<KnownGauge>& known) {
  if (preset.measures != Dimension::length) return usual_units(preset.measures).front();
  if (sort_of(preset) == GaugeSort::comparison) return UnitId::division;
  if (known) return known->own_unit == UnitId::inch ? UnitId::inch : UnitId::millimetre;
  return UnitId::millimetre;
}

const Kept<Setting>* last_setting_of(const Job& job, const std::string& gauge) {
  const auto found = std::find_if(job.settings.rbegin(), job.settings.rend(), [&](const auto& each) { return each.value.gauge == gauge; });
  return found == job.settings.rend() ? nullptr : &*found;
}

}  // namespace

std::optional<std::size_t> place_in_log(const RecordedJob& recorded, const std::string& event) {
  const auto found = std::find_if(recorded.events.begin(), recorded.events.end(), [&](const EventEnvelope& each) { return each.id == event; });
  if (found == recorded.events.end()) return std::nullopt;
  return static_cast<std::size_t>(found - recorded.events.begin());
}

SettingNow setting_now(const RecordedJob& recorded, const Kept<Setting>& setting, const Asking& asking) {
  SettingNow out{&setting, {}, setting.value.closing_zero.has_value(), {}, round_of(recorded, setting.value.id)};
  std::optional<std::int64_t> made = seconds_of_event(recorded, setting.event);
  for (const auto& look : recorded.job.zero_looks) {
    const auto looked = look.value.setting == setting.value.id ? seconds_of_event(recorded, look.event) : std::nullopt;
    if (looked && made) made = std::max(*made, *looked);
  }
  const auto now = utc_seconds(asking.now);
  if (made && now && *now >= *made) out.age_minutes = (*now - *made) / kSecondsPerMinute;
  if (!setting.value.master) return out;  // a direct gauge shows what it shows
  if (out.age_minutes && *out.age_minutes >= kStaleAfterMinutes) out.why_stale.push_back({"setting_now.old", {list("ago", {ago(*out.age_minutes)})}});
  const std::string& maker = who_made(recorded, setting.event);
  const std::string user = asking.who.empty() ? last_reader(recorded, setting.value.id) : asking.who;
  if (!maker.empty() && !user.empty() && maker != user) out.why_stale.push_back({"setting_now.other_person", {verbatim("who", maker)}});
  return out;
}

GaugeSort sort_of(const GaugePreset& preset) {
  switch (preset.action) {
    case GaugeAction::comparison: return GaugeSort::comparison;
    case GaugeAction::direct: return !preset.touches && preset.serves_as ? GaugeSort::master : GaugeSort::direct;
  }
  return GaugeSort::direct;
}

std::vector<UnitId> usual_units(Dimension quantity) {
  switch (quantity) {
    case Dimension::length: return {UnitId::millimetre, UnitId::inch};
    case Dimension::angle: return {UnitId::degree};
    case Dimension::temperature: return {UnitId::celsius, UnitId::fahrenheit};
    case Dimension::force: return {UnitId::newton, UnitId::kilogram_force, UnitId::pound_force};
    case Dimension::torque: return {UnitId::newton_metre, UnitId::kilogram_metre, UnitId::pound_foot};
    case Dimension::pressure: return {UnitId::bar, UnitId::psi, UnitId::kilopascal};
    case Dimension::volume: return {UnitId::cubic_centimetre, UnitId::cubic_inch};
    case Dimension::mass: return {UnitId::gram, UnitId::ounce};
    case Dimension::time: return {UnitId::second};
    case Dimension::count: return {UnitId::piece};
    case Dimension::divisions: return {UnitId::division};
  }
  FETTLE_ASSERT(false, "a quantity without units");
}

bool read_with_the_page(const Catalogue& known, const Kind& kind) {
  if (kind.layout.cells() == 0) return true;  // on its parts
  return std::any_of(known.gauge_presets.begin(), known.gauge_presets.end(), [&](const GaugePreset& each) {
    const bool reads = sort_of(each) == GaugeSort::comparison ? each.touches == kind.feature
                                                              : sort_of(each) == GaugeSort::direct && (kind.feature == Feature::figure || !each.touches || each.touches == kind.feature);
    return reads && reads_its_quantities(each, kind.layout);
  });
}

std::vector<GaugeNow> gauges_now(const RecordedJob& recorded, const PartOnBench* part, const Asking& asking) {
  const Job& job = recorded.job;
  std::vector<std::pair<std::ptrdiff_t, GaugeNow>> found;
  for (const auto& kept : job.gauges) {
    const GaugePreset* preset = catalogue().gauge_preset(kept.value.preset);
    if (preset == nullptr) continue;
    Problems other;
    GaugeNow out{&kept.value, preset, take(know_gauge(kept.value, catalogue().gauge_presets, place_of(kept.value)), other), sort_of(*preset), UnitId::millimetre, {}, {}};
    out.unit = read_in(*preset, out.known);
    if (part != nullptr) out.why_not = why_not(job, out, *part);
    std::ptrdiff_t used = -1;
    if (const auto* setting = last_setting_of(job, kept.value.id)) {
      out.setting = setting_now(recorded, *setting, asking);
      used = setting - job.settings.data();
    }
    found.emplace_back(used, std::move(out));
  }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<GaugeNow> out;
  for (auto& each : found) out.push_back(std::move(each.second));
  return out;
}

std::optional<Length> size_of_part(const Job& job, const PartOnBench& part) {
  if (part.part.step.kind == StepKind::unknown) return std::nullopt;
  const MadeTo made = made_to(job, part.part.kind);
  const auto standard = made.standard ? made.standard : made.smallest ? made.smallest : made.largest;
  if (!standard) return std::nullopt;
  return *standard + exact_length(part.part.step.offset).value_or(Length());
}

std::string next_round(const Job& job) {
  int most = 0;
  for (const auto* list : {&job.readings, &job.superseded_readings}) {
    for (const auto& each : *list) most = std::max(most, whole(each.value.round).value_or(0));
  }
  return std::to_string(most + 1);
}

Message ago(std::int64_t minutes) {
  constexpr std::int64_t kHour = 60;
  constexpr std::int64_t kDay = 24 * kHour;
  constexpr std::int64_t kWeek = 7 * kDay;
  constexpr std::int64_t kYear = 365 * kDay;
  if (minutes < 2) return {"ago.now", {}};
  if (minutes < 2 * kHour) return {"ago.minutes", {count("n", minutes)}};
  if (minutes < 2 * kDay) return {"ago.hours", {count("n", minutes / kHour)}};
  if (minutes < 2 * kWeek) return {"ago.days", {count("n", minutes / kDay)}};
  if (minutes < 2 * kYear) return {"ago.weeks", {count("n", minutes / kWeek)}};
  return {"ago.years", {count("n", minutes / kYear)}};
}

}  // namespace fettle
