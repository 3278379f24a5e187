#include "app/round_plan.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "app/bench.h"
#include "app/part_words.h"
#include "form/shape_group.h"
#include "gauging/repeatability.h"

namespace fettle {
namespace {

/// 95 of 100 pairs of readings lie closer than this many standard uncertainties of one (ISO 5725-6).
const double kPairLimit = 1.96 * std::sqrt(2.0);

bool counts(const RoundReading& reading) { return reading.reading->value.flag == ReadingFlag::none; }

std::size_t good_of(const RoundPlace& place) {
  return static_cast<std::size_t>(std::count_if(place.readings.begin(), place.readings.end(), counts));
}

bool left_out_wholly(const RoundPlace& place) { return !place.readings.empty() && good_of(place) == 0; }

/// A second good reading has answered a question, whichever way.
MeasuredState state_of_place(const RoundPlace& place) {
  const std::size_t good = good_of(place);
  if (left_out_wholly(place)) return MeasuredState::asked_again;
  const bool suspect = std::any_of(place.readings.begin(), place.readings.end(), [](const RoundReading& each) { return each.suspect; });
  if (suspect && good < 2) return MeasuredState::asked_again;
  return good == 0 ? MeasuredState::to_do : good < place.wanted ? MeasuredState::begun : MeasuredState::read;
}

/// In hand order what was not read; then what does not fit the rest. What was set aside is read again while the hand is there.
std::optional<std::size_t> next_of(const std::vector<RoundPlace>& places) {
  for (std::size_t i = 0; i < places.size(); ++i) {
    const bool open = places[i].state == MeasuredState::to_do || places[i].state == MeasuredState::begun || left_out_wholly(places[i]);
    if (open) return i;
  }
  for (std::size_t i = 0; i < places.size(); ++i) {
    if (places[i].state == MeasuredState::asked_again) return i;
  }
  return std::nullopt;
}

bool every_place_read(const std::vector<RoundPlace>& places) {
  return std::all_of(places.begin(), places.end(), [](const RoundPlace& each) { return good_of(each) > 0; });
}

/// What is read at the places of a part.
class PlacesOf {
 public:
  PlacesOf(const PartOnBench& part, const Job& job, const JudgedJob* judged) : part_(part), job_(job) {
    if (judged == nullptr) return;
    for (const Size& each : judged->sizes.sizes) {
      if (each.part == part.part.id) sizes_.emplace(each.reading, each.as_measured);
    }
    for (const GroupEstimate& group : judged->groups) {
      if (!group.shape) continue;
      for (const SuspectReading& each : group.shape->suspects) {
        if (each.part == part.part.id) suspects_.insert(each.readings.begin(), each.readings.end());
      }
    }
  }

  /// With the readings that `wanted` takes, in hand order.
  template <class Wanted>
  [[nodiscard]] std::vector<RoundPlace> places(const Wanted& wanted) const {
    std::vector<RoundPlace> out;
    const Layout& layout = part_.layout;
    for (const std::size_t cell : hand_order(layout)) {
      RoundPlace place{cell / layout.directions.size(), cell % layout.directions.size(), cell, 1, MeasuredState::to_do, {}, {}};
      for (const auto& kept : job_.readings) {
        if (kept.value.part == part_.part.id && cell_of(kept.value) == cell && wanted(kept)) place.readings.push_back(reading_of(kept));
      }
      place.state = state_of_place(place);
      if (place.state == MeasuredState::asked_again) place.wanted = good_of(place) + 1;
      out.push_back(std::move(place));
    }
    return out;
  }

 private:
  [[nodiscard]] std::optional<std::size_t> cell_of(const Reading& reading) const {
    const auto station = part_.layout.find_station(reading.station);
    const auto direction = part_.layout.find_direction(reading.direction);
    return station && direction ? std::optional(part_.layout.cell(*station, *direction)) : std::nullopt;
  }
  [[nodiscard]] RoundReading reading_of(const Kept<Reading>& kept) const {
    const auto size = sizes_.find(kept.event);
    return {&kept, "", size == sizes_.end() ? std::nullopt : std::optional(size->second), suspects_.contains(kept.event)};
  }

  const PartOnBench& part_;
  const Job& job_;
  std::map<std::string, Ratio> sizes_;  ///< by event
  std::set<std::string> suspects_;
};

class RoundPlanner {
 public:
  RoundPlanner(const RecordedJob& recorded, const JudgedJob* judged, const RoundAsked& asked, const PartOnBench& part)
      : recorded_(recorded), job_(recorded.job), judged_(judged), asked_(asked), part_(part), places_(part, recorded.job, judged) {
    for (const EventEnvelope& each : recorded.events) who_.emplace(each.id, &each.who);
  }

  Result<RoundPlan> run() {
    RoundPlan out{part_, 0, 0, {}, {}, {}, {}, false, {}, {}, false, false, {}, {}, {}, {}};
    for (const auto& kept : job_.parts) {
      if (kept.value.kind != part_.part.kind) continue;
      ++out.count;
      if (kept.value.id == part_.part.id) out.number = out.count;
    }
    if (asked_.setting && setting_of(*asked_.setting) == nullptr) {
      return Problem{"app.round_unknown_setting", {}, {verbatim("setting", *asked_.setting)}};
    }
    HandsOfPart hands = hands_of(recorded_, part_, {asked_.setting, cell_asked(), asked_.round}, asked_.asking);
    out.hands = std::move(hands.hands);
    if (asked_.setting) use(setting_of(*asked_.setting), out);
    if (!asked_.setting) use(first_in_hand(hands.of_cell, out), out);
    if (out.setting) out.zero_moved = zero_moved_lately(job_, *out.setting->setting);
    fill(out);
    for (RoundPlace& each : out.places) each.hand = hands.of_cell[each.cell];
    if (out.zero_moved && out.zero_moved->again.empty()) out.zero_moved.reset();
    out.next = next_of(out.places);
    // What the hand needs now comes first; but a pass goes on as it was begun.
    const bool other = !asked_.setting && out.next && out.hands.size() != 1;
    if (other) use(out.places[*out.next].hand ? out.hands[*out.places[*out.next].hand].setting.setting : nullptr, out);
    closing(out);
    repeats(out);
    return out;
  }

 private:
  [[nodiscard]] const Kept<Setting>* setting_of(const std::string& id) const {
    const auto found = std::find_if(job_.settings.begin(), job_.settings.end(), [&](const auto& each) { return each.value.id == id; });
    return found == job_.settings.end() ? nullptr : &*found;
  }

  [[nodiscard]] std::optional<std::size_t> cell_asked() const {
    return asked_.place ? cell_named(part_.layout, *asked_.place) : std::nullopt;
  }

  [[nodiscard]] const Kept<Setting>* first_in_hand(const std::vector<std::optional<std::size_t>>& of_cell, const RoundPlan& out) const {
    for (const std::size_t cell : hand_order(part_.layout)) {
      if (of_cell[cell]) return out.hands[*of_cell[cell]].setting.setting;
    }
    return nullptr;
  }

  void use(const Kept<Setting>* setting, RoundPlan& out) const {
    out.round = asked_.round.value_or(next_round(job_));
    out.setting.reset();
    out.gauge.reset();
    out.closed = false;
    if (setting == nullptr) return;
    out.setting = setting_now(recorded_, *setting, asked_.asking);
    out.closed = out.setting->closed;
    if (!asked_.round) out.round = out.setting->round;
    for (GaugeNow& each : gauges_now(recorded_, &part_, asked_.asking)) {
      if (each.gauge->id == setting->value.gauge) out.gauge = std::move(each);
    }
  }

  [[nodiscard]] std::string reader_of(const Kept<Reading>& kept) const {
    if (kept.value.read_by) return *kept.value.read_by;
    const auto found = who_.find(kept.event);
    return found == who_.end() ? std::string() : *found->second;
  }

  void fill(RoundPlan& out) const {
    const auto all = [](const Kept<Reading>&) { return true; };
    const auto in_this_round = [&](const Kept<Reading>& each) {
      const auto in = [&](const RoundHand& hand) { return each.value.round == hand.round && each.value.setting == hand.setting.setting->value.id; };
      const bool asked = each.value.round == out.round && (!out.setting || each.value.setting == out.setting->setting->value.id);
      return asked || std::any_of(out.hands.begin(), out.hands.end(), in);
    };
    const auto in_others = [&](const Kept<Reading>& each) { return !in_this_round(each); };
    const auto own = [&](const Kept<Reading>& each) { return reader_of(each) == asked_.asking.who; };
    if (asked_.second) {
      out.places = places_.places(own);
      // Questions rest on what the other read.
      for (RoundPlace& each : out.places) unsuspected(each);
      if (every_place_read(out.places)) {
        std::vector<RoundPlace> both = places_.places(all);
        for (std::size_t i = 0; i < both.size(); ++i) compare(both[i], i, out);
        out.places = std::move(both);
      }
    } else if (!out.zero_moved && asked_.round && every_place_read(places_.places(in_others))) {
      out.places = places_.places(in_this_round);
    } else {
      out.places = places_.places(all);
    }
    for (RoundPlace& place : out.places) {
      for (RoundReading& each : place.readings) each.who = reader_of(*each.reading);
    }
  }

  static void unsuspected(RoundPlace& place) {
    for (RoundReading& each : place.readings) each.suspect = false;
    place.state = state_of_place(place);
    place.wanted = place.state == MeasuredState::asked_again ? good_of(place) + 1 : 1;
  }

  void compare(const RoundPlace& place, std::size_t at, RoundPlan& out) const {
    Ratio sums[2];
    std::int64_t each_of[2] = {0, 0};
    for (const RoundReading& each : place.readings) {
      if (!counts(each) || !each.as_measured) continue;
      const std::size_t whose = reader_of(*each.reading) == asked_.asking.who ? 1 : 0;
      sums[whose] = sums[whose] + *each.as_measured;
      ++each_of[whose];
    }
    if (each_of[0] == 0 || each_of[1] == 0) return;
    ReadTwice twice{at, sums[0] / Ratio(each_of[0]), sums[1] / Ratio(each_of[1]), std::nullopt, false};
    if (part_.layout.quantity(place.cell) == Dimension::length) twice.apart = absolute(twice.own - twice.other);
    out.twice.push_back(std::move(twice));
  }

  void closing(RoundPlan& out) const {
    if (!out.setting || out.next) return;
    const Setting& setting = out.setting->setting->value;
    // Not between two parts: one zero and one pair of temperatures serve all that is read under the setting.
    const bool over = out.closed || (every_part_read() && !out.zero_moved);
    out.zero_wanted = setting.master && !out.closed && over;
    // A gap does not grow with the shop's warmth as far as a feeler tells.
    out.temperatures_wanted = part_.feature != Feature::figure && over && (!setting.part_temperature || (setting.master && !setting.master_temperature));
  }

  /// Of this kind: one setting serves all of them.
  [[nodiscard]] bool every_part_read() const {
    return std::all_of(job_.parts.begin(), job_.parts.end(), [&](const auto& kept) {
      if (kept.value.kind != part_.part.kind) return true;
      const PartProgress progress = progress_of(on_bench(job_, kept.value, catalogue()), job_, judged_);
      return progress.in == progress.planned;
    });
  }

  void repeats(RoundPlan& out) const {
    const std::string* last = nullptr;
    for (const RoundPlace& place : out.places) {
      if (part_.layout.quantity(place.cell) != Dimension::length) continue;
      std::map<std::pair<std::string, std::string>, std::vector<Ratio>> of_one_hand;  // by setting and person
      for (const RoundReading& each : place.readings) {
        if (!counts(each) || !each.as_measured) continue;
        of_one_hand[{each.reading->value.setting, each.who}].push_back(*each.as_measured);
        last = &each.reading->event;
      }
      for (const auto& [hand, sizes] : of_one_hand) {
        if (sizes.size() < 2) continue;
        const auto [least, most] = std::minmax_element(sizes.begin(), sizes.end());
        const Ratio apart = *most - *least;
        if (!out.repeats_apart || apart > *out.repeats_apart) out.repeats_apart = apart;
      }
    }
    if (last != nullptr && judged_ != nullptr) usual_of(*last, out);
    constexpr double kCountsPerMm = static_cast<double>(Length::kCountsPerMillimetre);
    for (ReadTwice& each : out.twice) each.far = out.usual_apart && each.apart && each.apart->to_double() / kCountsPerMm > *out.usual_apart;
  }

  /// From what the reading's own sources say.
  void usual_of(const std::string& event, RoundPlan& out) const {
    for (const Size& size : judged_->sizes.sizes) {
      if (size.reading != event) continue;
      double variance = 0.0;
      for (const ErrorTerm& term : size.terms) {
        const ErrorSource& source = judged_->sizes.sources[term.source];
        const bool own = shows_in_repeats(source) || (source.scope == ErrorScope::reading && source.component == "rounding");
        if (own) variance += std::pow(term.coefficient * source.standard_uncertainty, 2.0);
      }
      if (variance > 0.0) out.usual_apart = kPairLimit * std::sqrt(variance);
    }
  }

  const RecordedJob& recorded_;
  const Job& job_;
  const JudgedJob* judged_;
  const RoundAsked& asked_;
  const PartOnBench& part_;
  PlacesOf places_;
  std::map<std::string, const std::string*> who_;  ///< by event
};

}  // namespace

std::string_view measured_state_name(MeasuredState state) {
  switch (state) {
    case MeasuredState::to_do: return "to-do";
    case MeasuredState::begun: return "begun";
    case MeasuredState::read: return "read";
    case MeasuredState::asked_again: return "asked-again";
  }
  return "";
}

std::vector<std::size_t> hand_order(const Layout& layout) {
  std::vector<std::size_t> out;
  const std::size_t stations = layout.stations.size();
  const std::size_t directions = layout.directions.size();
  bool one_quantity = true;
  for (std::size_t cell = 0; cell < layout.cells(); ++cell) one_quantity = one_quantity && layout.quantity(cell) == layout.quantity(cell - cell % directions);
  for (std::size_t i = 0; i < layout.cells(); ++i) {
    const std::size_t direction = one_quantity ? i / stations : i % directions;
    std::size_t station = one_quantity ? i % stations : i / directions;
    if (one_quantity && direction % 2 == 1) station = stations - 1 - station;
    if (layout.there(layout.cell(station, direction))) out.push_back(layout.cell(station, direction));
  }
  return out;
}

PartProgress progress_of(const PartOnBench& part, const Job& job, const JudgedJob* judged) {
  const std::vector<RoundPlace> places = PlacesOf(part, job, judged).places([](const Kept<Reading>&) { return true; });
  PartProgress out{places.size(), 0, 0, MeasuredState::to_do, {}};
  for (const RoundPlace& each : places) {
    if (good_of(each) > 0) ++out.in;
    if (each.state == MeasuredState::asked_again) ++out.asked_again;
  }
  const bool touched = std::any_of(places.begin(), places.end(), [](const RoundPlace& each) { return !each.readings.empty(); });
  if (part.part.members && !touched) return {0, 0, 0, MeasuredState::to_do, {}};
  if (const auto next = next_of(places)) out.next_cell = places[*next].cell;
  out.state = out.asked_again > 0      ? MeasuredState::asked_again
              : !touched               ? MeasuredState::to_do
              : out.in < out.planned   ? MeasuredState::begun
                                       : MeasuredState::read;
  return out;
}

Result<RoundPlan> plan_round(const RecordedJob& recorded, const JudgedJob* judged, const RoundAsked& asked) {
  const Part* part = part_of(recorded.job, asked.part);
  if (part == nullptr || catalogue().kind(part->kind) == nullptr) return Problem{"app.round_unknown_part", {}, {verbatim("part", asked.part)}};
  if (asked.second && asked.asking.who.empty()) return Problem{"app.round_nobody", {}, {}};
  const PartOnBench on = on_bench(recorded.job, *part, catalogue());
  return RoundPlanner(recorded, judged, asked, on).run();
}

}  // namespace fettle
