#include "app/round_hands.h"

#include <algorithm>
#include <map>

#include "app/bench.h"
#include "entry/typed_quantity.h"

namespace fettle {
namespace {

/// A gauge that was set for another size than this far from the part's is not set for the part.
constexpr Length kNearEnough = Length::counts(3 * Length::kCountsPerMillimetre);

bool names(const std::vector<std::string>& ids, const std::string& id) { return std::find(ids.begin(), ids.end(), id) != ids.end(); }

/// Of what is read at the place.
const std::vector<std::string>& usual_gauges(const PartOnBench& part, const Kind& kind, std::size_t cell) {
  const std::string& station = part.layout.stations[cell / part.layout.directions.size()].id;
  const auto own = std::find_if(kind.gauges_at.begin(), kind.gauges_at.end(), [&](const StationGauges& each) { return each.station == station; });
  const bool fits = own != kind.gauges_at.end() && part.layout.quantity(cell) == Dimension::length;
  return fits ? own->gauges : kind.gauges;
}

/// The gauge's own first.
std::vector<UnitId> units_of(const GaugeNow& gauge) {
  const bool of_one_unit = gauge.unit == UnitId::division || gauge.preset->serves_as || gauge.preset->touches;
  std::vector<UnitId> out = of_one_unit ? std::vector{gauge.unit} : usual_units(gauge.preset->measures);
  std::stable_partition(out.begin(), out.end(), [&](UnitId each) { return each == gauge.unit; });
  return out;
}

/// A face in bar or in psi, a tester in newtons or kilograms: nobody can tell by the sort of gauge.
bool unit_must_be_said(Dimension quantity) { return quantity == Dimension::force || quantity == Dimension::pressure || quantity == Dimension::torque; }

class HandFinder {
 public:
  HandFinder(const RecordedJob& recorded, const PartOnBench& part, const HandAsked& asked, const Asking& asking)
      : recorded_(recorded), job_(recorded.job), part_(part), asked_(asked), asking_(asking), kind_(*catalogue().kind(part.part.kind)),
        size_(size_of_part(recorded.job, part)) {
    for (GaugeNow& each : gauges_now(recorded, &part, asking)) gauges_.emplace(each.gauge->id, std::move(each));
    tell_uses();
  }

  HandsOfPart run() {
    HandsOfPart out;
    for (std::size_t cell = 0; cell < part_.layout.cells(); ++cell) {
      const Kept<Setting>* setting = part_.layout.there(cell) ? setting_at(cell) : nullptr;
      out.of_cell.push_back(setting == nullptr ? std::nullopt : std::optional(hand_of(*setting, out.hands)));
    }
    return out;
  }

 private:
  /// Which settings were used, and which on this kind; which gauge was last used at each station of it.
  void tell_uses() {
    for (const auto& kept : job_.readings) {
      const Reading& reading = kept.value;
      Use& use = uses_[reading.setting];
      use.last_unit = reading.quantity.quantity.unit;
      const auto read = std::find_if(job_.parts.begin(), job_.parts.end(), [&](const auto& each) { return each.value.id == reading.part; });
      if (read == job_.parts.end() || read->value.kind != part_.part.kind) continue;
      use.on_this_kind = true;
      const auto setting = std::find_if(job_.settings.begin(), job_.settings.end(), [&](const auto& each) { return each.value.id == reading.setting; });
      if (setting != job_.settings.end()) last_at_[reading.station] = setting->value.gauge;
    }
  }

  [[nodiscard]] const GaugeNow* gauge_of(const Setting& setting) const {
    const auto found = gauges_.find(setting.gauge);
    return found == gauges_.end() || found->second.why_not ? nullptr : &found->second;
  }

  [[nodiscard]] bool locked_rightly(const Setting& setting) const {
    const bool pair = part_.part.members.has_value();
    const auto& members = part_.part.members;
    const bool of_it = pair && setting.locked_on &&
                       std::any_of(members->begin(), members->end(), [&](const Member& each) { return each.part == *setting.locked_on; });
    return setting.locked_on ? of_it : !(pair && setting.master);
  }

  /// The gauge of a setting that can read the place, or null.
  [[nodiscard]] const GaugeNow* reads(const Setting& setting, std::size_t cell) const {
    const GaugeNow* gauge = gauge_of(setting);
    return gauge != nullptr && locked_rightly(setting) && can_read(*gauge->preset, part_, kind_, cell) ? gauge : nullptr;
  }

  /// Whoever asks for a setting knows better whether the part lies in the gauge's range.
  [[nodiscard]] bool can_be_asked(const Setting& setting, std::size_t cell) const {
    const auto found = gauges_.find(setting.gauge);
    return found != gauges_.end() && found->second.known && locked_rightly(setting) && can_read(*found->second.preset, part_, kind_, cell);
  }

  [[nodiscard]] bool offers_itself(const Setting& setting, const GaugeNow& gauge) const {
    const bool held_to_anything = gauge.sort == GaugeSort::direct && part_.feature == Feature::figure;
    const auto use = uses_.find(setting.id);
    if (held_to_anything) return true;
    if (use != uses_.end()) return use->second.on_this_kind;
    const auto wanted = exact_length(setting.wanted);
    return !size_ || !wanted || absolute((*size_ - *wanted).ratio()) <= kNearEnough.ratio();
  }

  [[nodiscard]] const Kept<Setting>* setting_at(std::size_t cell) const {
    const Kept<Setting>* asked = nullptr;
    if (asked_.setting) {
      const auto found = std::find_if(job_.settings.begin(), job_.settings.end(), [&](const auto& each) { return each.value.id == *asked_.setting; });
      if (found != job_.settings.end()) asked = &*found;
    }
    if (asked != nullptr && !can_be_asked(asked->value, cell)) asked = nullptr;
    if (asked != nullptr && (asked_.cell == cell || suits(*gauges_.at(asked->value.gauge).preset, part_, kind_, cell))) return asked;
    const auto last = last_at_.find(part_.layout.stations[cell / part_.layout.directions.size()].id);
    const Kept<Setting>* usual = nullptr;
    for (auto each = job_.settings.rbegin(); each != job_.settings.rend(); ++each) {
      const GaugeNow* gauge = reads(each->value, cell);
      if (gauge == nullptr || !offers_itself(each->value, *gauge)) continue;
      if (last != last_at_.end() && last->second == each->value.gauge) return &*each;
      if (usual == nullptr && suits(*gauge->preset, part_, kind_, cell)) usual = &*each;
    }
    return usual != nullptr ? usual : asked;
  }

  std::size_t hand_of(const Kept<Setting>& setting, std::vector<RoundHand>& hands) const {
    for (std::size_t i = 0; i < hands.size(); ++i) {
      if (hands[i].setting.setting == &setting) return i;
    }
    const GaugeNow& gauge = gauges_.at(setting.value.gauge);
    RoundHand out{gauge, setting_now(recorded_, setting, asking_), {}, units_of(gauge), {}, false};
    const bool asked_for = !asked_.setting || *asked_.setting == setting.value.id;
    out.round = asked_for && asked_.round ? *asked_.round : out.setting.round;
    if (!unit_must_be_said(gauge.preset->measures)) out.unit = out.units.front();
    const auto use = uses_.find(setting.value.id);
    if (use != uses_.end() && std::find(out.units.begin(), out.units.end(), use->second.last_unit) != out.units.end()) out.unit = use->second.last_unit;
    out.both_ways = gauge.preset->both_ways && part_.feature == Feature::figure;
    hands.push_back(std::move(out));
    return hands.size() - 1;
  }

  struct Use {
    bool on_this_kind = false;
    UnitId last_unit = UnitId::millimetre;
  };

  const RecordedJob& recorded_;
  const Job& job_;
  const PartOnBench& part_;
  const HandAsked& asked_;
  const Asking& asking_;
  const Kind& kind_;
  std::optional<Length> size_;
  std::map<std::string, GaugeNow> gauges_;        ///< by id
  std::map<std::string, Use> uses_;               ///< by setting
  std::map<std::string, std::string> last_at_;    ///< gauge, by station
};

}  // namespace

bool can_read(const GaugePreset& preset, const PartOnBench& part, const Kind& kind, std::size_t cell) {
  if (preset.measures != part.layout.quantity(cell)) return false;
  switch (sort_of(preset)) {
    case GaugeSort::master: return false;
    case GaugeSort::direct: return !preset.touches || *preset.touches == part.feature || part.feature == Feature::figure;
    case GaugeSort::comparison:
      return preset.touches == part.feature || (!kind.members.empty() && names(kind.gauges, preset.id));  // locked on one part of a pair, it reads the clearance
  }
  return false;
}

bool suits(const GaugePreset& preset, const PartOnBench& part, const Kind& kind, std::size_t cell) {
  if (!can_read(preset, part, kind, cell)) return false;
  if (part.feature != Feature::figure) return preset.touches == part.feature;
  const std::vector<std::string>& usual = usual_gauges(part, kind, cell);
  return usual.empty() || names(usual, preset.id);
}

std::vector<const GaugePreset*> presets_for(const Catalogue& known, const PartOnBench& part, std::size_t cell) {
  const Kind& kind = *known.kind(part.part.kind);
  std::vector<const GaugePreset*> out;
  for (const std::string& each : usual_gauges(part, kind, cell)) {
    const GaugePreset* preset = known.gauge_preset(each);
    if (preset != nullptr && can_read(*preset, part, kind, cell)) out.push_back(preset);
  }
  if (!out.empty()) return out;
  for (const GaugePreset& each : known.gauge_presets) {
    if (can_read(each, part, kind, cell)) out.push_back(&each);
  }
  return out;
}

std::optional<std::size_t> cell_named(const Layout& layout, std::string_view place) {
  const std::size_t slash = place.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto station = layout.find_station(place.substr(0, slash));
  const auto direction = layout.find_direction(place.substr(slash + 1));
  return station && direction ? std::optional(layout.cell(*station, *direction)) : std::nullopt;
}

HandsOfPart hands_of(const RecordedJob& recorded, const PartOnBench& part, const HandAsked& asked, const Asking& asking) {
  return HandFinder(recorded, part, asked, asking).run();
}

}  // namespace fettle
