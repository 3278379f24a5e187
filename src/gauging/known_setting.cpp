#include "gauging/known_setting.h"

#include "gauging/needle.h"

namespace fettle {
namespace {

struct SettingCheck {
  const Setting& setting;
  const Place& place;
  Problems& problems;

  void add(std::string code, std::vector<Argument> arguments = {}) const {
    arguments.push_back(verbatim("setting", setting.id));
    problems.push_back({std::move(code), place, std::move(arguments)});
  }
};

const KnownGauge* look_up(const KnownGauges& gauges, const std::string& id) {
  const auto found = gauges.find(id);
  return found == gauges.end() ? nullptr : &found->second;
}

bool inside_range(const GaugePreset& preset, Length size) {
  return (!preset.range_from || size >= *preset.range_from) && (!preset.range_to || size <= *preset.range_to);
}

/// The master's size at 20 °C: a marked size, or what was set less the micrometer's own zero error.
std::optional<Length> size_of_master(const SettingCheck& check, const KnownGauge& master) {
  const auto set = exact_length(check.setting.set);
  if (master.marked && set && *set != *master.marked) {
    check.add("gauging.set_and_marked", {verbatim("master", master.id), verbatim("set", check.setting.set->text)});
    return std::nullopt;
  }
  if (master.marked) return master.marked;
  if (!set) {
    check.add("gauging.set_missing", {verbatim("master", master.id)});
    return std::nullopt;
  }
  if (!inside_range(*master.preset, *set)) {
    check.add("gauging.set_outside_range", {verbatim("master", master.id), verbatim("set", check.setting.set->text)});
    return std::nullopt;
  }
  return *set - master.zero_error;
}

const KnownGauge* find_master(const SettingCheck& check, const KnownGauges& gauges) {
  if (!check.setting.master) {
    check.add("gauging.master_missing", {verbatim("gauge", check.setting.gauge)});
    return nullptr;
  }
  const KnownGauge* master = look_up(gauges, *check.setting.master);
  if (master == nullptr) {
    check.add("gauging.master_unknown", {verbatim("master", *check.setting.master)});
    return nullptr;
  }
  if (!master->preset->serves_as) {
    check.add("gauging.not_a_master", {verbatim("master", master->id)});
    return nullptr;
  }
  return master;
}

/// Needle sense and the two zeros of a comparison gauge.
bool read_needle(const SettingCheck& check, KnownSetting& known) {
  const KnownGauge& gauge = *known.gauge;
  if (!gauge.division) {
    check.add("gauging.division_missing", {verbatim("gauge", gauge.id)});
    return false;
  }
  if (!gauge.pressed_in || !gauge.preset->touches) {
    check.add("gauging.sense_missing", {verbatim("gauge", gauge.id)});
    return false;
  }
  known.per_clockwise = size_per_clockwise(*gauge.preset->touches, *gauge.pressed_in);
  if (check.setting.opening_zero) {
    known.opening_clockwise = clockwise_counts(*check.setting.opening_zero, gauge.division).value_or(Ratio());
  }
  if (check.setting.closing_zero) {
    const auto closing = clockwise_counts(*check.setting.closing_zero, gauge.division).value_or(Ratio());
    known.closing_difference = Ratio(known.per_clockwise) * (closing - known.opening_clockwise);
  }
  return true;
}

}  // namespace

std::optional<Ratio> clockwise_counts(const TypedQuantity& typed, std::optional<Length> division) {
  switch (typed.quantity.dimension()) {
    case Dimension::divisions:
      if (!division) return std::nullopt;
      return typed.quantity.value * division->ratio();
    case Dimension::length:
      return typed.quantity.in_base();
    case Dimension::angle:
    case Dimension::temperature:
    case Dimension::force:
    case Dimension::torque:
    case Dimension::pressure:
    case Dimension::volume:
    case Dimension::mass:
    case Dimension::time:
    case Dimension::count:
      return std::nullopt;
  }
  return std::nullopt;
}

std::optional<KnownSetting> know_setting(const Kept<Setting>& kept, const KnownGauges& gauges, const Place& place,
                                         Problems& problems) {
  const Setting& setting = kept.value;
  const SettingCheck check{setting, place, problems};
  const KnownGauge* gauge = look_up(gauges, setting.gauge);
  if (gauge == nullptr) {
    check.add("gauging.unknown_gauge", {verbatim("gauge", setting.gauge)});
    return std::nullopt;
  }
  KnownSetting known{&setting, gauge, nullptr, Length(), 0, Ratio(), std::nullopt, std::nullopt};
  if (setting.master_temperature) known.master_temperature = setting.master_temperature->quantity.in_base();
  if (gauge->preset->action == GaugeAction::direct) {
    const bool of_a_comparison = setting.master || setting.set || setting.opening_zero || setting.closing_zero;
    if (!of_a_comparison) return known;
    check.add("gauging.not_for_direct", {verbatim("gauge", gauge->id)});
    return std::nullopt;
  }
  known.master = find_master(check, gauges);
  const bool needle = read_needle(check, known);
  if (known.master == nullptr) return std::nullopt;
  const auto size = size_of_master(check, *known.master);
  if (!size || !needle) return std::nullopt;
  known.master_size = *size;
  return known;
}

Place place_of(const Setting& setting) {
  return first_line({&setting.set, &setting.wanted, &setting.opening_zero, &setting.closing_zero,
                            &setting.master_temperature, &setting.part_temperature});
}

MasterReport report_master(const KnownSetting& known) {
  MasterReport report{known.setting->id, known.master_size, exact_length(known.setting->wanted), std::nullopt};
  const bool thimble = known.master != nullptr && !known.master->marked && known.master->division;
  if (report.wanted && thimble && known.master->division->counts() > 0) {
    const Ratio shown = (*report.wanted + known.master->zero_error).ratio() / known.master->division->ratio();
    const auto counts = (shown.rounded() * known.master->division->ratio()).whole64();
    if (counts) report.nearest = Length::counts(*counts) - known.master->zero_error;
  }
  return report;
}

}  // namespace fettle
