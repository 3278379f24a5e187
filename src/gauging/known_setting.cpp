#include "gauging/known_setting.h"

#include "gauging/needle.h"
#include "gauging/thimble.h"

namespace fettle {
namespace {

constexpr int kFewestZeros = 2;
constexpr int kMostZeros = 5;
/// No workshop reads a part outside these.
constexpr std::int64_t kColdestCelsius = -40;
constexpr std::int64_t kHottestCelsius = 150;
/// No comparison gauge of the catalogue travels farther where its preset names no travel.
constexpr std::int64_t kMostTravelMillimetres = 3;

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

/// Locked on a part the micrometer carries that part over: what the dial shows is the clearance, counted from nothing.
std::optional<Length> locked_size(const SettingCheck& check, const KnownGauge& master) {
  if (master.preset->serves_as != MasterKind::micrometer) {
    check.add("gauging.locked_no_micrometer", {verbatim("master", master.id)});
    return std::nullopt;
  }
  if (check.setting.set || !exact_length(check.setting.wanted)) {
    check.add("gauging.locked_and_set", {verbatim("part", *check.setting.locked_on)});
    return std::nullopt;
  }
  return Length();
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

/// The zero, or the mean of the zeros that were found.
bool read_opening(const SettingCheck& check, KnownSetting& known) {
  const auto& division = known.gauge->division;
  if (!check.setting.opening_zeros) {
    if (check.setting.opening_zero) known.opening_clockwise = clockwise_counts(*check.setting.opening_zero, division).value_or(Ratio());
    return true;
  }
  const auto& zeros = *check.setting.opening_zeros;
  if (zeros.size() < std::size_t{kFewestZeros} || zeros.size() > std::size_t{kMostZeros} || check.setting.opening_zero) {
    check.add("gauging.zeros_count", {count("fewest", kFewestZeros), count("most", kMostZeros)});
    return false;
  }
  for (const TypedQuantity& each : zeros) {
    known.zeros_clockwise.push_back(clockwise_counts(each, division).value_or(Ratio()));
    known.opening_clockwise = known.opening_clockwise + known.zeros_clockwise.back();
  }
  known.opening_clockwise = known.opening_clockwise / Ratio(static_cast<Int128>(zeros.size()));
  return true;
}

/// One key that sticks would else move every reading by kilometres.
bool zeros_are_within_travel(const SettingCheck& check, const KnownGauge& gauge) {
  std::vector<TypedQuantity> zeros = check.setting.opening_zeros.value_or(std::vector<TypedQuantity>());
  if (check.setting.opening_zero) zeros.push_back(*check.setting.opening_zero);
  if (check.setting.closing_zero) zeros.push_back(*check.setting.closing_zero);
  for (const ZeroCheck& each : check.setting.checks.value_or(std::vector<ZeroCheck>())) zeros.push_back(each.shows);
  const Ratio travel = travel_of(gauge).ratio();
  const std::size_t before = check.problems.size();
  for (const TypedQuantity& each : zeros) {
    if (absolute(clockwise_counts(each, gauge.division).value_or(Ratio())) <= travel) continue;
    check.problems.push_back({"gauging.beyond_travel", each.place,
                              {verbatim("text", each.text), verbatim("gauge", gauge.id), length_argument("travel", travel, UnitId::millimetre, 2)}});
  }
  return check.problems.size() == before;
}

/// Needle sense and the zeros of a comparison gauge.
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
  if (!zeros_are_within_travel(check, gauge)) return false;
  if (!read_opening(check, known)) return false;
  if (check.setting.closing_zero) {
    const auto closing = clockwise_counts(*check.setting.closing_zero, gauge.division).value_or(Ratio());
    known.closing_difference = Ratio(known.per_clockwise) * (closing - known.opening_clockwise);
  }
  if (!check.setting.checks) return true;
  for (const ZeroCheck& each : *check.setting.checks) {
    const auto shown = clockwise_counts(each.shows, gauge.division).value_or(Ratio());
    known.checks.push_back({each.round, each.after_order, Ratio(known.per_clockwise) * (shown - known.opening_clockwise)});
    if (each.after_order < 0) check.add("gauging.check_order", {count("order", each.after_order)});
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

Length travel_of(const KnownGauge& gauge) { return gauge.travel.value_or(Length::counts(kMostTravelMillimetres * Length::kCountsPerMillimetre)); }

bool is_of_a_workshop(const Ratio& temperature) { return temperature >= Ratio(kColdestCelsius) && temperature <= Ratio(kHottestCelsius); }

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
    const bool of_a_comparison = setting.master || setting.set || setting.opening_zero || setting.opening_zeros ||
                                 setting.closing_zero || setting.checks;
    if (!of_a_comparison) return known;
    check.add("gauging.not_for_direct", {verbatim("gauge", gauge->id)});
    return std::nullopt;
  }
  known.master = find_master(check, gauges);
  const bool needle = read_needle(check, known);
  if (known.master == nullptr) return std::nullopt;
  const auto size = setting.locked_on ? locked_size(check, *known.master) : size_of_master(check, *known.master);
  if (!size || !needle) return std::nullopt;
  known.master_size = *size;
  return known;
}

Place place_of(const Setting& setting) {
  std::optional<TypedQuantity> zero;
  if (setting.opening_zeros && !setting.opening_zeros->empty()) zero = setting.opening_zeros->front();
  return first_line({&setting.set, &setting.wanted, &setting.opening_zero, &zero, &setting.closing_zero,
                            &setting.master_temperature, &setting.part_temperature});
}

MasterReport report_master(const KnownSetting& known) {
  MasterReport report{known.setting->id, known.master_size, exact_length(known.setting->wanted), std::nullopt};
  if (report.wanted && known.master != nullptr) {
    if (const auto choice = thimble_choice(*known.master, *report.wanted)) report.nearest = choice->nearest.really_set;
  }
  return report;
}

}  // namespace fettle
