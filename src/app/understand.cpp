#include "app/understand.h"

#include <algorithm>
#include <cmath>

#include "advice/asked_again.h"
#include "app/bench.h"
#include "app/place_sizes.h"
#include "app/reason.h"
#include "catalogue/catalogue.h"
#include "gauging/needle.h"
#include "gauging/place_names.h"

namespace fettle {
namespace {

/// The event id of what is not one yet.
const std::string kTyped = "typed";
/// Two sizes of a place agree: so many standard uncertainties of a reading, and at least this many mm.
constexpr double kAgreeing = 4.0;
constexpr double kLeastAgreeing = 0.002;

UnitId unit_shown(const Job& job) { return job.opened ? job.opened->value.shown_unit : UnitId::millimetre; }

/// As the bench speaks of sizes: a micrometre, a ten-thousandth of an inch; one more figure where half divisions count.
std::string bench_figure(const Ratio& counts, UnitId unit, bool halves) {
  return in_unit(counts, unit, (unit == UnitId::inch ? 4 : 3) + (halves ? 1 : 0));
}

Argument typed_argument(const std::string& name, const TypedQuantity& typed) {
  if (!typed.side || typed.quantity.unit != UnitId::division) return verbatim(name, typed.text);
  const std::string sign = typed.side == NeedleSide::clockwise ? "↻" : "↺";
  const Ratio figure = absolute(typed.quantity.value);
  return list(name, {{"advice.needle", {decimal("figure", figure.decimal(figure.is_whole() ? 0 : 1)), verbatim("sign", sign)}}});
}

/// The text with two neighbouring digits exchanged, each way that makes another text.
std::vector<std::string> exchanged(const std::string& text) {
  const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
  std::vector<std::string> out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::size_t next = i + 1;
    if (next < text.size() && (text[next] == '.' || text[next] == ',')) ++next;
    if (next >= text.size() || !is_digit(text[i]) || !is_digit(text[next]) || text[i] == text[next]) continue;
    out.push_back(text);
    std::swap(out.back()[i], out.back()[next]);
  }
  return out;
}

class Understanding {
 public:
  Understanding(const Job& job, const ReadingAct& act) : job_(job), act_(act) {}

  Understood run() {
    find_part();
    find_setting();
    check_correction();
    if (part_ == nullptr || setting_ == nullptr) return std::move(out_);
    sizes_.emplace(job_, *part_);
    cell_ = find_cell({part_->id, act_.station, act_.direction, {}, {}}, sizes_->part().layout, out_.problems);
    at_hand_ = setting_at_hand(job_, *setting_, out_.problems);
    if (!cell_ || !at_hand_.known) return std::move(out_);
    const auto typed = read(act_.text);
    const auto temperature = read_temperature();
    if (!typed || !out_.problems.empty()) return std::move(out_);
    const Reading reading{act_.part,   act_.station, act_.direction, *typed,    act_.setting,
                          act_.round,  act_.order,   act_.repeat,    temperature, act_.flag.value_or(ReadingFlag::none),
                          act_.note.value_or(""), act_.supersedes, act_.why, act_.read_by};
    const auto size = size_of(reading, out_.problems);
    if (!out_.problems.empty()) return std::move(out_);
    say(*typed, size);
    if (size && reading.flag == ReadingFlag::none) weigh(reading, *size);
    out_.reading = reading;
    return std::move(out_);
  }

 private:
  void find_part() {
    const auto found = std::find_if(job_.parts.begin(), job_.parts.end(), [&](const auto& each) { return each.value.id == act_.part; });
    if (found != job_.parts.end()) {
      part_ = &found->value;
    } else {
      out_.problems.push_back({"gauging.unknown_part", {}, {verbatim("part", act_.part)}});
    }
  }

  void find_setting() {
    const auto found = std::find_if(job_.settings.begin(), job_.settings.end(), [&](const auto& each) { return each.value.id == act_.setting; });
    if (found != job_.settings.end()) {
      setting_ = &*found;
    } else {
      out_.problems.push_back({"gauging.unknown_setting", {}, {verbatim("setting", act_.setting)}});
    }
  }

  void check_correction() {
    if (!act_.supersedes) return;
    const auto& readings = job_.readings;
    const bool stands = std::any_of(readings.begin(), readings.end(), [&](const auto& each) { return each.event == *act_.supersedes; });
    if (!stands) out_.problems.push_back({"record.no_reading", {}, {verbatim("event", *act_.supersedes), verbatim("job", job_.id)}});
    const Problems wrong = problems_of_reason(act_.why.value_or(""));
    out_.problems.insert(out_.problems.end(), wrong.begin(), wrong.end());
  }

  [[nodiscard]] const KnownSetting& known() const { return *at_hand_.known; }
  [[nodiscard]] bool on_a_dial() const { return known().gauge->preset->action == GaugeAction::comparison; }

  [[nodiscard]] TypingContext context() const {
    TypingContext out = on_a_dial() ? typing_on_dial(job_, setting_->value.plus_means) : typing_in(job_, sizes_->part().layout.quantity(*cell_));
    if (act_.unit) out.unit = act_.unit;
    if (on_a_dial()) out.dimension.reset();
    return out;
  }

  std::optional<TypedQuantity> read(const std::string& text) { return take(read_quantity(text, context(), {}), out_.problems); }

  std::optional<TypedQuantity> read_temperature() {
    if (!act_.temperature) return std::nullopt;
    return take(read_quantity(*act_.temperature, typing_in(job_, Dimension::temperature), {}), out_.problems);
  }

  /// Nothing, and its problems, where the reading cannot stand.
  std::optional<SizeThere> size_of(Reading reading, Problems& problems) const {
    reading.flag = ReadingFlag::none;
    reading.supersedes.reset();
    const auto sizes = sizes_->of({{kTyped, std::move(reading)}}, problems);
    return sizes.empty() ? std::nullopt : std::optional(sizes.front());
  }

  [[nodiscard]] bool is_length() const { return sizes_->part().layout.quantity(*cell_) == Dimension::length; }

  void say(const TypedQuantity& typed, const std::optional<SizeThere>& size) {
    const UnitId unit = unit_shown(job_);
    const bool halves = typed.quantity.unit == UnitId::division && !typed.quantity.value.is_whole();
    const bool spoken_side = on_a_dial() && typed.side.has_value();
    const Ratio figure = absolute(typed.quantity.value);
    const Argument spoken = decimal("figure", figure.decimal(figure.is_whole() ? 0 : 1));
    out_.spoken = spoken_side ? Message{"advice.spoken_dial", {word("side", typed.side == NeedleSide::clockwise ? "advice.side.clockwise" : "advice.side.anticlockwise"), spoken}}
                              : Message{"advice.spoken", {verbatim("figure", typed.text)}};
    if (!size || !is_length()) {
      out_.understood = Message{"advice.figure", {verbatim("text", typed.text)}};
      out_.said = said(verbatim("size", typed.text));
      return;
    }
    const Argument shown = decimal("size", bench_figure(size->counts, unit, halves));
    out_.said = said(shown);
    out_.understood = on_a_dial() && !setting_->value.locked_on ? deviation(typed, unit, halves, shown) : Message{"advice.is", {shown}};
  }

  [[nodiscard]] Message said(Argument size) const {
    return {"acts.said", {station_argument("station", act_.station), direction_argument("direction", act_.direction), std::move(size)}};
  }

  [[nodiscard]] Message deviation(const TypedQuantity& typed, UnitId unit, bool halves, const Argument& shown) const {
    const Ratio larger = Ratio(known().per_clockwise) * clockwise_counts(typed, known().gauge->division).value_or(Ratio());
    if (larger.sign() == 0) return {"advice.as_master", {shown}};
    return {larger.sign() > 0 ? "advice.larger" : "advice.smaller", {decimal("amount", bench_figure(absolute(larger), unit, halves)), shown}};
  }

  // What follows weighs the reading.

  void weigh(const Reading& reading, const SizeThere& size) {
    const PartOnBench& part = sizes_->part();
    const Direction& direction = part.layout.directions[*cell_ % part.layout.directions.size()];
    if (part.feature == Feature::figure || !is_length() || !direction.counted) return;
    Problems of_others;
    const std::vector<SizeThere> others = sizes_->of(readings_to_weigh(), of_others);
    const PlaceKnown known_there = place_known(size, others);
    const auto asked = asked_again(size.mm, known_there, supposed(reading.quantity, size));
    bool asked_before = false;
    for (const SizeThere& each : others) {
      if (each.part != part_->id || each.cell != *cell_) continue;
      const Reading& earlier = reading_of(each.event);
      if (earlier.setting != act_.setting) continue;
      const auto before = asked_again(each.mm, known_there, supposed(earlier.quantity, each));
      if (!before) continue;
      asked_before = true;
      const bool agrees = std::abs(each.mm - size.mm) <= std::max(kLeastAgreeing, kAgreeing * size.doubt_of_reading);
      if (!asked && !agrees && !out_.offer) out_.offer = offer(reading, earlier, each.event, *before);
    }
    if (asked && !asked_before) out_.question = question(reading.quantity, *asked);
  }

  /// Of this part under this setting, and of its like at the same place.
  [[nodiscard]] std::vector<Kept<Reading>> readings_to_weigh() const {
    std::vector<Kept<Reading>> out;
    for (const Kept<Reading>& each : job_.readings) {
      const Reading& reading = each.value;
      if (reading.flag != ReadingFlag::none || each.event == act_.supersedes) continue;
      const bool own = reading.part == part_->id && reading.setting == act_.setting;
      const bool like = reading.part != part_->id && reading.station == act_.station && reading.direction == act_.direction && is_like(reading.part);
      if (own || like) out.push_back(each);
    }
    return out;
  }

  [[nodiscard]] bool is_like(const std::string& id) const {
    const auto found = std::find_if(job_.parts.begin(), job_.parts.end(), [&](const auto& each) { return each.value.id == id; });
    return found != job_.parts.end() && found->value.kind == part_->kind && found->value.step.kind == part_->step.kind &&
           exact_length(found->value.step.offset) == exact_length(part_->step.offset);
  }

  [[nodiscard]] const Reading& reading_of(const std::string& event) const {
    const auto found = std::find_if(job_.readings.begin(), job_.readings.end(), [&](const auto& each) { return each.event == event; });
    FETTLE_ASSERT(found != job_.readings.end(), event);
    return found->value;
  }

  [[nodiscard]] PlaceKnown place_known(const SizeThere& size, const std::vector<SizeThere>& others) const {
    const PartOnBench& part = sizes_->part();
    PlaceKnown out{part.feature, {}, {}, {}, {}, {}, {}, size.doubt, size.doubt_of_reading};
    add_limits(out);
    const double sign = part.feature == Feature::inside ? 1.0 : -1.0;
    const std::size_t directions = part.layout.directions.size();
    for (const SizeThere& each : others) {
      if (each.part != part_->id) {
        out.like_parts.push_back(each.mm);
        continue;
      }
      if (each.cell == *cell_ || !part.layout.directions[each.cell % directions].counted) continue;
      out.same_part.push_back(each.mm);
      if (part.layout.stations[each.cell / directions].role != StationRole::reference) continue;
      if (!out.foot || sign * each.mm < sign * *out.foot) out.foot = each.mm;
    }
    return out;
  }

  void add_limits(PlaceKnown& out) const {
    if (part_->step.kind == StepKind::unknown) return;
    const double offset = exact_length(part_->step.offset).value_or(Length()).millimetres();
    const MadeTo made = made_to(job_, part_->kind);
    if (made.smallest) out.new_low = made.smallest->millimetres() + offset;
    if (made.largest) out.new_high = made.largest->millimetres() + offset;
    for (const Kept<Limit>& each : job_.limits) {
      const Limit& limit = each.value;
      const bool size = limit.definition == "size-1" || limit.definition == "size-2";
      const auto bound = exact_length(limit.bound);
      if (limit.kind == part_->kind && limit.role == LimitRole::service && size && bound) out.service = bound->millimetres() + offset;
    }
  }

  /// What the size would be if a hand had slipped, the commoner slip first.
  [[nodiscard]] std::vector<Supposed> supposed(const TypedQuantity& typed, const SizeThere& size) const {
    std::vector<Supposed> out;
    if (on_a_dial()) {
      const auto clockwise = clockwise_counts(typed, known().gauge->division);
      const double shown = clockwise.value_or(Ratio()).to_double() / static_cast<double>(Length::kCountsPerMillimetre);
      out.push_back({Slip::needle_side, size.mm - 2.0 * known().per_clockwise * shown});
      if (known().gauge->turn) both_ways(Slip::dial_turn, known().gauge->turn->millimetres(), size, out);
    } else {
      const bool inch = known().gauge->own_unit == UnitId::inch;
      both_ways(Slip::thimble_turn, inch ? 0.635 : 0.5, size, out);
      both_ways(Slip::thimble_line, inch ? 2.54 : 1.0, size, out);
      out.push_back({Slip::decimal_mark, size.mm * 10.0});
      out.push_back({Slip::decimal_mark, size.mm / 10.0});
    }
    for (const std::string& text : exchanged(typed.text)) {
      const auto other = read_quantity(text, context(), {});
      if (!other.ok()) continue;
      Reading reading{act_.part, act_.station, act_.direction, other.value(), act_.setting, act_.round, act_.order, {}, {}, ReadingFlag::none, "", {}};
      Problems none;
      if (const auto there = size_of(std::move(reading), none)) out.push_back({Slip::digits_exchanged, there->mm});
    }
    return out;
  }

  static void both_ways(Slip slip, double by_mm, const SizeThere& size, std::vector<Supposed>& out) {
    out.push_back({slip, size.mm + by_mm});
    out.push_back({slip, size.mm - by_mm});
  }

  /// The contact of a bore gauge that drops into a port shows far more than everything beside it.
  [[nodiscard]] std::string code_of(const AskedAgain& asked) const {
    if (asked.slip) return std::string(slip_name(*asked.slip));
    const bool port = on_a_dial() && sizes_->part().feature == Feature::inside && asked.toward_wear;
    return port ? "port-edge" : "far-off";
  }

  [[nodiscard]] std::string word_of_slip(const std::string& code) const {
    const bool by_unit = code == "thimble-turn" || code == "thimble-line";
    return "advice.slip." + code + (!by_unit ? "" : known().gauge->own_unit == UnitId::inch ? ".in" : ".mm");
  }

  [[nodiscard]] std::string word_of_band(const AskedAgain& asked) const {
    const bool inside = sizes_->part().feature == Feature::inside;
    switch (asked.why) {
      case OutOfBand::as_new: return inside ? "advice.out.as_new.inside" : "advice.out.as_new.outside";
      case OutOfBand::worn: return inside ? "advice.out.worn.inside" : "advice.out.worn.outside";
      case OutOfBand::apart: return asked.toward_wear == inside ? "advice.out.apart.larger" : "advice.out.apart.smaller";
    }
    return "";
  }

  [[nodiscard]] ReadingQuestion question(const TypedQuantity& typed, const AskedAgain& asked) const {
    const std::string code = code_of(asked);
    return {code, {"advice.asked", {typed_argument("text", typed), word("reason", word_of_band(asked)), word("slip", word_of_slip(code))}}};
  }

  [[nodiscard]] ReadingOffer offer(const Reading& now, const Reading& earlier, const std::string& event, const AskedAgain& asked) const {
    const std::string why = "advice.why." + code_of(asked);
    return {{"advice.offer", {typed_argument("text", now.quantity), typed_argument("earlier", earlier.quantity), word("why", why)}}, event, {why, {}}};
  }

  const Job& job_;
  const ReadingAct& act_;
  const Part* part_ = nullptr;
  const Kept<Setting>* setting_ = nullptr;
  std::optional<PlaceSizes> sizes_;
  std::optional<std::size_t> cell_;
  SettingAtHand at_hand_;
  Understood out_;
};

}  // namespace

Understood understand(const Job& job, const ReadingAct& act) { return Understanding(job, act).run(); }

TypingContext typing_in(const Job& job, std::optional<Dimension> dimension) {
  TypingContext out{std::nullopt, dimension, std::nullopt, std::nullopt, false, std::nullopt};
  if (job.opened) out.decimal_mark = job.opened->value.decimal_mark;
  if (job.opened) out.trade_words = job.opened->value.trade_words;
  return out;
}

TypingContext typing_on_dial(const Job& job, std::optional<NeedleSide> plus_means) {
  TypingContext out = typing_in(job, Dimension::divisions);
  out.unit = UnitId::division;
  out.on_a_dial = true;
  out.plus_means = plus_means;
  return out;
}

}  // namespace fettle
