#include "gauging/sizes.h"

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "base/joined.h"
#include "gauging/expansion.h"
#include "gauging/finding_zero.h"
#include "gauging/known_setting.h"
#include "gauging/place_names.h"
#include "gauging/repeatability.h"
#include "gauging/said_repeatability.h"
#include "gauging/source_list.h"
#include "gauging/studied_repeatability.h"
#include "gauging/zero_line.h"
#include "units/print.h"

namespace fettle {
namespace {

/// Thermometer and feeling for it: common practice, no source. See docs/NUMBERS.md.
constexpr double kThermometerHalfWidthCelsius = 0.5;
/// How well a handbook's expansion fits this casting, 1e-6 per °C: common practice, no source. See docs/NUMBERS.md.
constexpr double kExpansionHalfWidth = 1.0;
/// Past this a part is asked to rest: its parts are no longer at one temperature.
constexpr std::int64_t kFarCelsius = 5;
constexpr double kSqrt3 = 1.7320508075688772;
constexpr std::size_t kMostReadingsOfOnePlace = 64;

struct SettingInUse {
  KnownSetting known;
  std::optional<ZeroLine> zero;  ///< nothing: no readings
};

class Workbench {
 public:
  explicit Workbench(const GaugingInput& input) : input_(input) {}

  Gauged run() {
    know_gauges();
    know_settings();
    if (refused_gauges_.empty()) out_of_true_.emplace(input_.found_out, input_.settings, input_.readings, gauges_, out_.problems);
    sort_readings();
    for (const Kept<Reading>* reading : readings_) add_size(*reading);
    refuse_crowded_places();
    tell_unchecked_zeros();
    sort_sizes();
    out_.set.sources = std::move(sources_).take();
    tell_repeats();
    tell_zeros();
    sort_by_place(out_.problems);
    return std::move(out_);
  }

 private:
  void add_problem(std::string code, const Place& place, std::vector<Argument> arguments) {
    out_.problems.push_back({std::move(code), place, std::move(arguments)});
  }

  void know_gauges() {
    for (const auto& kept : input_.gauges) {
      auto known = take(know_gauge(kept.value, input_.presets, place_of(kept.value)), out_.problems);
      if (known) {
        gauges_.emplace(kept.value.id, std::move(*known));
      } else {
        refused_gauges_.insert(kept.value.id);
      }
    }
  }

  void know_settings() {
    for (const auto& kept : input_.settings) {
      // A refused gauge has had its say; its settings would only repeat it in other words.
      const Setting& setting = kept.value;
      if (refused_gauges_.contains(setting.gauge) || (setting.master && refused_gauges_.contains(*setting.master))) continue;
      auto known = know_setting(kept, gauges_, place_of(setting), out_.problems);
      if (!known) continue;
      tell_afresh(setting);
      if (known->master != nullptr && !setting.locked_on) out_.set.masters.push_back(report_master(*known));
      settings_.emplace(kept.value.id, SettingInUse{std::move(*known), std::nullopt});
    }
  }

  /// Recorded and shown: the earlier setting keeps its readings.
  void tell_afresh(const Setting& setting) {
    if (!setting.afresh_of) return;
    const auto earlier = std::find_if(input_.settings.begin(), input_.settings.end(),
                                      [&](const auto& each) { return each.value.id == *setting.afresh_of; });
    const bool same = earlier != input_.settings.end() && &earlier->value != &setting && earlier->value.gauge == setting.gauge;
    const std::vector<Argument> arguments = {verbatim("setting", setting.id), verbatim("earlier", *setting.afresh_of)};
    if (same) {
      out_.notices.push_back({"notice.set_afresh", arguments});
    } else {
      add_problem("gauging.afresh_unknown", place_of(setting), arguments);
    }
  }

  /// Readings by id, and for each setting the place of every reading in its sequence.
  void sort_readings() {
    std::map<std::string, std::vector<const Kept<Reading>*>> by_setting;
    for (const auto& kept : input_.readings) {
      readings_.push_back(&kept);
      by_setting[kept.value.setting].push_back(&kept);
    }
    std::sort(readings_.begin(), readings_.end(), [](const auto* a, const auto* b) { return a->event < b->event; });
    for (auto& [id, list] : by_setting) {
      if (const auto found = settings_.find(id); found != settings_.end()) put_in_order(found->second, std::move(list));
    }
  }

  void put_in_order(SettingInUse& setting, std::vector<const Kept<Reading>*> list) {
    const ZeroLine& zero = setting.zero.emplace(setting.known, std::move(list));
    for (const Kept<Reading>* twice : zero.taken_twice()) {
      add_problem("gauging.order_twice", twice->value.quantity.place,
                  {count("order", *twice->value.order), verbatim("setting", setting.known.setting->id)});
    }
    const std::vector<Message> notices = zero.notices();
    out_.notices.insert(out_.notices.end(), notices.begin(), notices.end());
  }

  void add_size(const Kept<Reading>& kept) {
    const Reading& reading = kept.value;
    const Place& place = reading.quantity.place;
    const PartOnBench* part = find_part(input_.parts, reading.part);
    if (part == nullptr) {
      add_problem("gauging.unknown_part", place, {verbatim("part", reading.part)});
      return;
    }
    const auto cell = find_cell({reading.part, reading.station, reading.direction, place, place}, part->layout, out_.problems);
    const auto setting = settings_.find(reading.setting);
    const bool stated = std::any_of(input_.settings.begin(), input_.settings.end(),
                                    [&](const auto& each) { return each.value.id == reading.setting; });
    if (!stated) add_problem("gauging.unknown_setting", place, {verbatim("setting", reading.setting)});
    if (!cell || setting == settings_.end()) return;
    const KnownSetting& known = setting->second.known;
    if (known.setting->locked_on) {
      if (!reads_clearance(known, *part, reading)) return;
    } else {
      // A wall, a head's thickness, a lobe: any direct gauge may span a figure. A needle knows which way is larger only on what it touches.
      const bool spans = part->feature == Feature::figure && known.gauge->preset->action == GaugeAction::direct;
      if (!spans && known.gauge->preset->touches && *known.gauge->preset->touches != part->feature) {
        add_problem("gauging.wrong_feature", place, {verbatim("gauge", known.gauge->id), verbatim("part", reading.part),
                                                     word("touches", "feature." + std::string(feature_name(*known.gauge->preset->touches)))});
        return;
      }
    }
    if (!temperatures_are_sound(known, reading)) return;
    const Dimension quantity = part->layout.quantity(*cell);
    if (!measures(known, reading, quantity)) return;
    const auto shown = quantity == Dimension::length ? shown_size(known, reading) : shown_figure(reading);
    if (!shown || reading.flag != ReadingFlag::none) return;
    make_size(kept, *part, *cell, setting->second, *shown);
  }

  /// Under a micrometer locked on a part only the pair of that part can be read.
  bool reads_clearance(const KnownSetting& known, const PartOnBench& part, const Reading& reading) {
    const std::string& locked_on = *known.setting->locked_on;
    const bool of_it = part.part.members && std::any_of(part.part.members->begin(), part.part.members->end(),
                                                        [&](const Member& each) { return each.part == locked_on; });
    if (!of_it) {
      add_problem("gauging.reads_clearance", reading.quantity.place,
                  {verbatim("setting", reading.setting), verbatim("locked_on", locked_on), verbatim("part", reading.part)});
      return false;
    }
    if (told_clearance_.insert(reading.setting).second) {
      out_.notices.push_back({"notice.reads_clearance", {verbatim("setting", reading.setting), verbatim("part", locked_on)}});
    }
    return true;
  }

  /// A correction needs both temperatures; one alone would be dropped without a word. And both must be of a workshop.
  bool temperatures_are_sound(const KnownSetting& known, const Reading& reading) {
    const auto part_temperature = temperature_of_part(reading, known);
    const Place& place = reading.quantity.place;
    if (part_temperature.has_value() != known.master_temperature.has_value()) {
      if (told_half_.insert(reading.setting).second) add_problem("gauging.temperature_half", place, {verbatim("setting", reading.setting)});
      return false;
    }
    for (const auto& each : {part_temperature, known.master_temperature}) {
      if (each && !is_of_a_workshop(*each)) {
        add_problem("gauging.temperature_impossible", place, {decimal("temperature", each->decimal(1), "°C")});
        return false;
      }
    }
    return true;
  }

  struct Shown {
    Ratio from_master;  ///< counts: the master's size, or what a direct gauge shows
    Ratio deviation;    ///< counts, + = larger part; zero for a direct gauge
  };

  /// The gauge, and what was typed, have to be of the place's own quantity: a force typed in millimetres is nobody's force.
  bool measures(const KnownSetting& known, const Reading& reading, Dimension quantity) {
    const Place& place = reading.quantity.place;
    const auto named = [](const char* name, Dimension each) { return word(name, "dimension." + std::string(dimension_name(each))); };
    if (known.gauge->preset->measures != quantity) {
      add_problem("gauging.measures_other", place, {verbatim("gauge", known.gauge->id), named("measures", known.gauge->preset->measures),
                                                    verbatim("part", reading.part), verbatim("station", reading.station),
                                                    named("wanted", quantity)});
      return false;
    }
    if (quantity == Dimension::length || reading.quantity.quantity.dimension() == quantity) return true;
    add_problem("gauging.other_quantity", place, {verbatim("text", reading.quantity.text), verbatim("part", reading.part),
                                                  verbatim("station", reading.station), named("wanted", quantity)});
    return false;
  }

  /// A force, a volume, an angle: shown as it is, in its base unit.
  static std::optional<Shown> shown_figure(const Reading& reading) { return Shown{reading.quantity.quantity.in_base(), Ratio()}; }

  std::optional<Shown> shown_size(const KnownSetting& known, const Reading& reading) {
    const TypedQuantity& typed = reading.quantity;
    if (known.gauge->preset->action == GaugeAction::direct) return shown_by_direct_gauge(known, typed);
    const auto clockwise = clockwise_counts(typed, known.gauge->division);
    if (!clockwise) {
      add_problem("gauging.not_a_deviation", typed.place, {verbatim("text", typed.text), verbatim("gauge", known.gauge->id)});
      return std::nullopt;
    }
    const Ratio deviation = Ratio(known.per_clockwise) * (*clockwise - known.opening_clockwise);
    const Length travel = travel_of(*known.gauge);
    if (absolute(deviation) > travel.ratio()) {
      add_problem("gauging.beyond_travel", typed.place,
                  {verbatim("text", typed.text), verbatim("gauge", known.gauge->id),
                   length_argument("travel", travel.ratio(), UnitId::millimetre, 2)});
      return std::nullopt;
    }
    return Shown{known.master_size.ratio(), deviation};
  }

  std::optional<Shown> shown_by_direct_gauge(const KnownSetting& known, const TypedQuantity& typed) {
    const auto length = exact_length(typed.quantity);
    if (!length || typed.side) {
      add_problem("gauging.not_a_size", typed.place, {verbatim("text", typed.text), verbatim("gauge", known.gauge->id)});
      return std::nullopt;
    }
    const GaugePreset& preset = *known.gauge->preset;
    if ((preset.range_from && *length < *preset.range_from) || (preset.range_to && *length > *preset.range_to)) {
      add_problem("gauging.reading_outside_range", typed.place,
                  {verbatim("text", typed.text), verbatim("gauge", known.gauge->id)});
      return std::nullopt;
    }
    return Shown{length->ratio() - known.gauge->zero_error.ratio(), Ratio()};
  }

  void make_size(const Kept<Reading>& kept, const PartOnBench& part, std::size_t cell, const SettingInUse& setting,
                 const Shown& shown) {
    const bool is_length = part.layout.quantity(cell) == Dimension::length;
    const auto part_temperature = is_length ? temperature_of_part(kept.value, setting.known) : std::nullopt;
    Ratio counts = shown.from_master + shown.deviation;
    if (part_temperature) tell_temperature(part, *part_temperature, setting.known);
    const bool corrected = part_temperature && setting.known.master_temperature && !setting.known.setting->locked_on;
    if (corrected) counts = counts + temperature_correction(part, setting.known, shown, *part_temperature);
    // A gap may be none and a height below its datum; a diameter of nothing is none.
    if (part.feature != Feature::figure && counts.sign() <= 0) {
      add_problem("gauging.no_size", kept.value.quantity.place, {verbatim("text", kept.value.quantity.text)});
      return;
    }
    Size size{kept.event, part.part.id, kept.value.setting, cell, counts,
              counts.to_double() / (is_length ? static_cast<double>(Length::kCountsPerMillimetre) : 1.0), {}};
    const SourceNames names{setting.known.gauge->id, kept.value.setting, kept.value.round, kept.event};
    add_gauge_terms(setting.known, names, sources_, size.terms);
    if (is_length) add_temperature_term(part, names, corrected, size);
    if (corrected) add_expansion_term(part, *part_temperature, size);
    setting.zero->correct(kept.event, sources_, size);
    if (out_of_true_) out_of_true_->correct(kept, sources_, size);
    std::sort(size.terms.begin(), size.terms.end(), [](const auto& a, const auto& b) { return a.source < b.source; });
    out_.set.sizes.push_back(std::move(size));
  }

  static std::optional<Ratio> temperature_of_part(const Reading& reading, const KnownSetting& known) {
    if (reading.temperature) return reading.temperature->quantity.in_base();
    if (known.setting->part_temperature) return known.setting->part_temperature->quantity.in_base();
    return std::nullopt;
  }

  /// D20 = D_T·[1 − α_part·(T_part − 20)] with the master grown likewise; rounded once to a whole count.
  [[nodiscard]] Ratio temperature_correction(const PartOnBench& part, const KnownSetting& known, const Shown& shown,
                                             const Ratio& part_temperature) const {
    const Ratio master = thermal_growth(shown.from_master, input_.gauge_expansion_per_celsius, *known.master_temperature);
    const Ratio warm = shown.from_master + master + shown.deviation;
    return (master - thermal_growth(warm, part.expansion_per_celsius, part_temperature)).rounded();
  }

  void add_temperature_term(const PartOnBench& part, const SourceNames& names, bool recorded, Size& size) {
    const double coefficient = part.part.members ? clearance_growth(part, names.setting) : size.estimate * part.expansion_per_celsius.to_double();
    // Common to everything read in one round, whatever the settings: parts and masters stand in one workshop.
    const std::string round = "round:" + names.round + ":";
    ErrorSource source{round + "temperature", "temperature", ErrorScope::round, input_.temperature.shape,
                       input_.temperature.standard_uncertainty(), std::nullopt, input_.temperature.origin, Dimension::temperature};
    if (recorded) {
      source.id = round + "thermometer";
      source.component = "thermometer";
      source.shape = ErrorShape::rectangular;
      source.standard_uncertainty = kThermometerHalfWidthCelsius / kSqrt3;
      source.origin = "common practice, no source";
    }
    size.terms.push_back({sources_.add(std::move(source)), coefficient});
  }

  /// mm per °C that a clearance read directly opens: hole and shaft grow apart by the difference of their expansions. Nothing where it was
  /// not read under a micrometer locked on a part (a strip, a feeler: its own size is too small to matter).
  [[nodiscard]] double clearance_growth(const PartOnBench& pair, const std::string& setting) const {
    const KnownSetting& known = settings_.at(setting).known;
    if (!known.setting->locked_on) return 0.0;
    double growth = 0.0;
    for (const Member& member : *pair.part.members) {
      const PartOnBench* part = find_part(input_.parts, member.part);
      if (part == nullptr || part->feature == Feature::figure) continue;
      growth += (part->feature == Feature::inside ? 1.0 : -1.0) * part->expansion_per_celsius.to_double();
    }
    return growth * exact_length(known.setting->wanted).value_or(Length()).millimetres();
  }

  /// The same handbook figure stands behind every part of one expansion: what it is wrong by is shared.
  void add_expansion_term(const PartOnBench& part, const Ratio& part_temperature, Size& size) {
    const double off = (part_temperature - Ratio(20)).to_double();
    if (off == 0.0) return;
    ErrorSource source{"expansion:" + part.expansion_per_celsius.decimal(9), "expansion", ErrorScope::master,
                       ErrorShape::rectangular, kExpansionHalfWidth / kSqrt3, std::nullopt, "common practice, no source", Dimension::temperature};
    size.terms.push_back({sources_.add(std::move(source)), size.estimate * off * 1e-6});
  }

  void tell_temperature(const PartOnBench& part, const Ratio& part_temperature, const KnownSetting& known) {
    const bool apart = known.master_temperature && absolute(part_temperature - *known.master_temperature) > Ratio(kFarCelsius);
    if (!apart || !told_warm_.insert(part.part.id).second) return;
    out_.notices.push_back({"notice.temperatures_apart", {verbatim("part", part.part.id),
                                                          decimal("part_temperature", part_temperature.decimal(1), "°C"),
                                                          decimal("master_temperature", known.master_temperature->decimal(1), "°C")}});
  }

  /// Repeats speak for themselves: what a study, and then the job's own, show of a repeatability counts in place of what was stated.
  void tell_repeats() {
    ReadWith with;
    for (const auto& [id, setting] : settings_) with.gauge_of_setting.emplace(id, setting.known.gauge->id);
    for (const Kept<Reading>* reading : readings_) {
      if (const std::string who = reader_of(*reading); !who.empty()) with.person_of_reading.emplace(reading->event, who);
    }
    if (input_.studies != nullptr && refused_gauges_.empty()) {
      for (const UsedStudy& each : use_studies(out_.set, *input_.studies, gauges_, with, out_.problems)) out_.notices.push_back(said(each));
    }
    for (const LearnedRepeatability& each : learn_repeatability(out_.set, with)) out_.notices.push_back(said(each));
  }

  /// Who read the gauge: the one it was called out by, else the one who entered it.
  [[nodiscard]] std::string reader_of(const Kept<Reading>& reading) const {
    if (reading.value.read_by) return *reading.value.read_by;
    if (input_.entered_by == nullptr) return {};
    const auto who = input_.entered_by->find(reading.event);
    return who == input_.entered_by->end() ? std::string() : who->second;
  }

  /// A zero that was found several times speaks for itself as repeats do.
  void tell_zeros() {
    for (const auto& [id, setting] : settings_) {
      const auto spread = spread_of_zeros(setting.known);
      if (!spread) continue;
      if (*spread > setting.known.gauge->division->ratio() * Ratio(2)) {
        out_.notices.push_back({"notice.zeros_apart", {verbatim("setting", id), length_argument("spread", *spread, UnitId::micrometre, 1)}});
      }
      const auto learned = learn_zero(out_.set, setting.known);
      if (!learned) continue;
      Message notice{learned->stated_mm ? "notice.zeros_learned" : "notice.zeros_alone",
                     {verbatim("setting", id), count("zeros", static_cast<std::int64_t>(learned->zeros)),
                      decimal("learned", print_fixed(1000.0 * learned->learned_mm, 1), "µm"),
                      count("freedom", static_cast<std::int64_t>(learned->degrees_of_freedom))}};
      if (learned->stated_mm) notice.arguments.push_back(decimal("stated", print_fixed(1000.0 * *learned->stated_mm, 1), "µm"));
      out_.notices.push_back(std::move(notice));
    }
  }

  /// What was not checked is said; the catalogue's own figures for the zero then stand alone.
  void tell_unchecked_zeros() {
    std::vector<std::string> settings;
    std::set<std::string> gauges;
    for (const auto& [id, setting] : settings_) {
      if (!setting.zero) continue;
      const KnownSetting& known = setting.known;
      const bool comparison = known.master != nullptr;
      if (comparison && !setting.zero->looked_at_last()) settings.push_back(id);
      const KnownGauge& measuring = comparison ? *known.master : *known.gauge;
      const bool told = out_of_true_ && out_of_true_->told(measuring.id);
      if (!measuring.zero_recorded && !measuring.marked && !told) gauges.insert(measuring.id);
    }
    if (!settings.empty()) out_.notices.push_back({"notice.no_closing_zero", {verbatim("settings", joined(settings))}});
    if (!gauges.empty()) out_.notices.push_back({"notice.no_zero_check", {verbatim("gauges", joined(gauges))}});
  }

  /// Exact means stay inside 127 bits only while few readings share a place.
  void refuse_crowded_places() {
    std::map<std::pair<std::string, std::size_t>, std::size_t> crowd;
    for (const Size& size : out_.set.sizes) {
      if (++crowd[{size.part, size.cell}] == kMostReadingsOfOnePlace + 1) {
        add_problem("gauging.too_many_repeats", {},
                    {verbatim("part", size.part), count("most", static_cast<std::int64_t>(kMostReadingsOfOnePlace))});
      }
    }
  }

  void sort_sizes() {
    std::map<std::string, std::size_t> rank;
    for (std::size_t i = 0; i < input_.parts.size(); ++i) rank.emplace(input_.parts[i].part.id, i);
    std::sort(out_.set.sizes.begin(), out_.set.sizes.end(), [&](const Size& a, const Size& b) {
      return std::tuple(rank[a.part], a.cell, a.reading) < std::tuple(rank[b.part], b.cell, b.reading);
    });
  }

  const GaugingInput& input_;
  Gauged out_;
  KnownGauges gauges_;
  std::set<std::string> refused_gauges_;
  std::set<std::string> told_warm_;
  std::set<std::string> told_clearance_;
  std::set<std::string> told_half_;  ///< one fault of a setting, not one of each reading
  std::map<std::string, SettingInUse> settings_;
  std::vector<const Kept<Reading>*> readings_;
  SourceList sources_;
  std::optional<OutOfTrue> out_of_true_;
};

}  // namespace

const PartOnBench* find_part(const std::vector<PartOnBench>& parts, const std::string& id) {
  const auto found = std::find_if(parts.begin(), parts.end(), [&](const PartOnBench& each) { return each.part.id == id; });
  return found == parts.end() ? nullptr : &*found;
}

Gauged sizes_from(const GaugingInput& input) { return Workbench(input).run(); }

}  // namespace fettle
