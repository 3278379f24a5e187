#include "app/understand.h"

#include <algorithm>
#include <cmath>

#include "app/place_sizes.h"
#include "app/question_words.h"
#include "app/reading_weigher.h"
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

  void weigh(const Reading& reading, const SizeThere& size) {
    const ReadingWeigher weigher(job_, *sizes_, *part_);
    if (!weigher.weighs(*cell_)) return;
    const auto asked = weigher.ask({kTyped, reading}, size, known(), act_.supersedes);
    bool asked_before = false;
    Problems of_others;
    for (const SizeThere& each : sizes_->of(read_there(), of_others)) {
      if (each.part != part_->id || each.cell != *cell_) continue;
      const Kept<Reading>& earlier = reading_of(each.event);
      const auto before = weigher.ask(earlier, each, known(), act_.supersedes);
      if (!before) continue;
      asked_before = true;
      const bool agrees = std::abs(each.mm - size.mm) <= std::max(kLeastAgreeing, kAgreeing * size.doubt_of_reading);
      if (!out_.settles && (agrees || !asked)) settle(earlier.value, reading, *before, agrees);
      if (!asked && !agrees && !out_.offer) out_.offer = offer(reading, earlier.value, each.event, before->code);
    }
    if (asked && !asked_before) out_.question = ReadingQuestion{asked->code, asked->sentence, asked->chance};
  }

  void settle(const Reading& earlier, const Reading& now, const QuestionOfReading& asked, bool agrees) {
    const auto answer = agrees ? QuestionAnswer::agrees_with_first : QuestionAnswer::agrees_with_expectation;
    out_.settles = QuestionAnswered{earlier.part, earlier.station, earlier.direction, earlier.setting, earlier.quantity.text, asked.code,
                                    in_hundred(asked.chance), answer, now.quantity.text};
  }

  /// At this place of the part, under this setting.
  [[nodiscard]] std::vector<Kept<Reading>> read_there() const {
    std::vector<Kept<Reading>> out;
    for (const Kept<Reading>& each : job_.readings) {
      const Reading& reading = each.value;
      if (reading.flag != ReadingFlag::none || each.event == act_.supersedes) continue;
      const bool there = reading.part == part_->id && reading.station == act_.station && reading.direction == act_.direction;
      if (there && reading.setting == act_.setting) out.push_back(each);
    }
    return out;
  }

  [[nodiscard]] const Kept<Reading>& reading_of(const std::string& event) const {
    const auto found = std::find_if(job_.readings.begin(), job_.readings.end(), [&](const auto& each) { return each.event == event; });
    FETTLE_ASSERT(found != job_.readings.end(), event);
    return *found;
  }

  [[nodiscard]] static ReadingOffer offer(const Reading& now, const Reading& earlier, const std::string& event, const std::string& code) {
    const std::string why = "advice.why." + code;
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
