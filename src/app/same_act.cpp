#include "app/same_act.h"

#include "app/understand.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

using Text = std::optional<std::string>;

bool same(const std::optional<TypedQuantity>& typed, const Text& text) { return typed.has_value() == text.has_value() && (!typed || typed->text == *text); }

/// A word that was left out is kept as an empty one.
bool same_word(const std::string& kept, const Text& word) { return kept == word.value_or(""); }

/// The unit beside a text counts where the text has none of its own.
bool same_unit(const Job& job, const TypedQuantity& typed, const std::optional<UnitId>& unit) {
  if (!unit || typed.quantity.unit == *unit) return true;
  TypingContext context = typing_in(job, std::nullopt);
  context.unit = unit;
  context.on_a_dial = typed.side.has_value();
  context.plus_means = typed.side;
  const auto read = read_quantity(typed.text, context, {});
  return read.ok() && read.value().quantity.unit == typed.quantity.unit;
}

std::vector<std::string> zeros_of(const Setting& setting) {
  std::vector<std::string> out;
  if (setting.opening_zero) out.push_back(setting.opening_zero->text);
  for (const TypedQuantity& each : setting.opening_zeros.value_or(std::vector<TypedQuantity>{})) out.push_back(each.text);
  return out;
}

class SameBody {
 public:
  explicit SameBody(const Job& job) : job_(job) {}

  bool operator()(const ReadingTaken& there, const ReadingAct& act) const {
    const Reading& kept = there.reading;
    return kept.part == act.part && kept.station == act.station && kept.direction == act.direction && kept.quantity.text == act.text &&
           same_unit(job_, kept.quantity, act.unit) && kept.setting == act.setting && kept.round == act.round && kept.repeat == act.repeat &&
           kept.flag == act.flag.value_or(ReadingFlag::none) && same_word(kept.note, act.note) && kept.supersedes == act.supersedes && kept.why == act.why &&
           kept.read_by == act.read_by && same(kept.temperature, act.temperature);
  }
  bool operator()(const SettingMade& there, const SettingAct& act) const {
    const Setting& kept = there.setting;
    return kept.id == act.setting && kept.gauge == act.gauge && kept.master == act.master && same(kept.wanted, act.wanted) && same(kept.set, act.set) &&
           zeros_of(kept) == act.zeros.value_or(std::vector<std::string>{}) && same(kept.master_temperature, act.master_temperature) &&
           same(kept.part_temperature, act.part_temperature) && kept.locked_on == act.locked_on && kept.afresh_of == act.afresh_of;
  }
  bool operator()(const GaugeRegistered& there, const GaugeAct& act) const {
    const Gauge& kept = there.gauge;
    return kept.id == act.gauge && kept.preset == act.preset && same(kept.division, act.division) && same(kept.turn, act.turn) &&
           kept.pressed_in == act.pressed_in && same(kept.reads, act.reads) && same(kept.on_standard, act.on_standard) && same(kept.marked, act.marked);
  }
  bool operator()(const ZeroLooked& kept, const ZeroAct& act) const {
    return kept.setting == act.setting && kept.round == act.round && kept.after_order == act.after_order && kept.shows.text == act.shows && kept.closes == act.closes;
  }
  bool operator()(const TemperaturesTaken& kept, const TemperaturesAct& act) const {
    return kept.setting == act.setting && same(kept.part, act.part) && same(kept.master, act.master);
  }
  bool operator()(const LimitEntered& there, const LimitAct& act) const {
    const Limit& kept = there.limit;
    return kept.id == act.limit && kept.kind == act.kind && kept.definition == act.definition && kept.role == act.role && kept.side == act.side &&
           kept.bound.text == act.bound && kept.origin.rule_of_thumb == act.thumb.has_value() && (act.thumb || same_book(kept.origin, act));
  }
  static bool same_book(const LimitOrigin& kept, const LimitAct& act) {
    return same_word(kept.book, act.book) && same_word(kept.edition, act.edition) && same_word(kept.page, act.page);
  }
  bool operator()(const FindingSeen& there, const FindingAct& act) const {
    const Finding& kept = there.finding;
    return kept.part == act.part && kept.what == act.what && kept.weight == act.weight && same_word(kept.where, act.where) && same(kept.depth, act.depth) &&
           kept.sort == act.sort && kept.test == act.test && kept.outcome == act.outcome && kept.station == act.station && kept.direction == act.direction &&
           kept.photo == act.photo;
  }
  bool operator()(const StepSeen& kept, const StepSeenAct& act) const {
    return kept.parts == act.parts && kept.step.kind == act.step && same(kept.step.offset, act.offset) && same_word(kept.step.seen_where, act.seen);
  }
  bool operator()(const StripStepAnswered& kept, const StripStepAct& act) const {
    return kept.step == act.step && kept.answer == act.answer && same_word(kept.note, act.note);
  }
  bool operator()(const QuestionAnswered& kept, const AnswerAct& act) const {
    return kept.part == act.part && kept.station == act.station && kept.direction == act.direction && kept.setting == act.setting && kept.reading == act.reading &&
           kept.answer == act.answer;
  }
  bool operator()(const PartsReady& kept, const ReadyAct& act) const { return kept.parts == act.parts && kept.state == act.state; }
  bool operator()(const VerdictTaken& kept, const TakeVerdictAct& act) const {
    return kept.part == act.part && kept.limit == act.limit && kept.word == act.word && same_word(kept.why, act.why);
  }
  bool operator()(const SheetEntered& kept, const SheetAct& act) const {
    return kept.sheet == act.sheet && same_word(kept.why, act.why) && kept.of == read_sheet_draft(act.draft, catalogue()).sheet;
  }
  bool operator()(const EventWithdrawn& kept, const WithdrawAct& act) const { return kept.event == act.event && kept.why == act.why; }
  template <class Kept, class Sent>
  bool operator()(const Kept&, const Sent&) const {
    return false;  // another sort of act
  }

 private:
  const Job& job_;
};

}  // namespace

bool same_act(const Job& job, const EventEnvelope& there, const Act& again) {
  const ActHead& head = again.head;
  return there.id == head.id && there.device == head.device && there.made_at == head.made_at && there.who == head.who &&
         std::visit(SameBody(job), there.payload, again.body);
}

}  // namespace fettle
