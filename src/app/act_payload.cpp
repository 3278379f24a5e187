#include "app/act_payload.h"

#include <algorithm>
#include <set>

#include "app/bench.h"
#include "app/draft_problems.h"
#include "app/enter_sheet.h"
#include "app/place_sizes.h"
#include "app/reason.h"
#include "app/second_reader.h"
#include "app/thumb_offers.h"
#include "base/joined.h"
#include "catalogue/catalogue.h"
#include "catalogue/mistakes.h"
#include "catalogue/strip_steps.h"
#include "gauging/known_setting.h"
#include "limits/limit.h"
#include "wire/act_head.h"

namespace fettle {
namespace {

constexpr std::size_t kLongestWord = 2000;  ///< of a note, a remark, a name

template <class T>
const T* named(const std::vector<Kept<T>>& list, const std::string& id) {
  const auto found = std::find_if(list.begin(), list.end(), [&](const auto& each) { return each.value.id == id; });
  return found == list.end() ? nullptr : &found->value;
}

template <class T>
std::string ids_joined(const std::vector<Kept<T>>& list) {
  std::vector<std::string> ids;
  for (const auto& each : list) ids.push_back(each.value.id);
  return joined(ids);
}

/// One act, all of its problems at once.
class ReadAct {
 public:
  ReadAct(const JobAtWork& at_work, const ActHead& head, const JudgedJob* judged) : at_work_(at_work), job_(at_work.job()), head_(head), judged_(judged) {}

  Result<ActPayload> run(const ActBody& body) {
    ActPayload out = std::visit([&](const auto& act) { return of(act); }, body);
    if (!problems_.empty()) return std::move(problems_);
    return out;
  }

 private:
  void add(std::string code, std::vector<Argument> arguments) { problems_.push_back({std::move(code), {}, std::move(arguments)}); }

  void add_all(const Problems& more) { problems_.insert(problems_.end(), more.begin(), more.end()); }

  std::optional<TypedQuantity> quantity(const std::optional<std::string>& text, const TypingContext& context) {
    return text ? take(read_quantity(*text, context, {}), problems_) : std::nullopt;
  }
  std::optional<TypedQuantity> length(const std::optional<std::string>& text) { return quantity(text, typing_in(job_, Dimension::length)); }
  std::optional<TypedQuantity> warmth(const std::optional<std::string>& text) {
    auto typed = quantity(text, typing_in(job_, Dimension::temperature));
    // Under it no reading could be judged, and none be taken.
    if (typed && !is_of_a_workshop(typed->quantity.in_base())) add("gauging.temperature_impossible", {decimal("temperature", typed->quantity.in_base().decimal(1), "°C")});
    return typed;
  }

  void need_id(const char* what, const std::string& id) {
    if (id.empty() || id.size() > kLongestWord) add("acts.id_empty", {verbatim("key", what)});
  }
  void need_part(const std::string& part) {
    if (named(job_.parts, part) == nullptr) add("job.part_unknown", {verbatim("part", part)});
  }
  void not_too_long(const char* what, const std::string& text) {
    if (text.size() > kLongestWord) add("acts.word_long", {verbatim("key", what), count("most", static_cast<std::int64_t>(kLongestWord))});
  }

  ActPayload of(const ReadingAct& act) {
    not_too_long("note", act.note.value_or(""));
    if (act.read_by) add_all(problems_of_name("read_by", *act.read_by));
    Understood understood = understand(job_, act);
    add_all(understood.problems);
    if (!understood.reading) return {};
    ask_blindly(act, understood);
    Reading reading = std::move(*understood.reading);
    give_order(reading);
    return {ReadingTaken{std::move(reading)}, std::move(understood.said), std::move(understood.question), std::move(understood.settles)};
  }

  /// A second reading is worth something only where nothing said to the second person leans on the first.
  void ask_blindly(const ReadingAct& act, Understood& understood) const {
    const std::string reader = act.read_by.value_or(head_.who);
    if (!reads_second(at_work_.recorded(), act, reader)) return;
    const Job known = for_second_reader(at_work_.recorded(), act.part, reader);
    ReadingAct alone = act;
    const bool of_own = std::any_of(known.readings.begin(), known.readings.end(), [&](const auto& each) { return each.event == act.supersedes; });
    if (!of_own) alone.supersedes.reset();
    understood.question = understand(known, alone).question;
  }

  /// Two devices may count alike while one is away. What was read before a round was closed must not open it again: it keeps its own place
  /// before the zero, or has none.
  void give_order(Reading& reading) const {
    bool taken = false;
    std::int64_t last = 0;
    for (const Kept<Reading>& each : job_.readings) {
      if (each.event == reading.supersedes || !in_same_round(each.value, reading) || !each.value.order) continue;
      taken = taken || each.value.order == reading.order;
      last = std::max(last, *each.value.order);
    }
    const Kept<ZeroLooked>* closing = closing_look(reading);
    const bool closed = closing != nullptr && last <= closing->value.after_order;
    if (const auto corrected = order_of_corrected(reading); closed && corrected) {
      reading.order = corrected;
    } else if (closed && !made_after(*closing)) {
      if (taken || *reading.order > closing->value.after_order) reading.order.reset();
    } else if (taken) {
      reading.order = last + 1;
    }
  }

  static bool in_same_round(const Reading& a, const Reading& b) { return a.setting == b.setting && a.round == b.round; }

  /// The last look that closed the round of the reading; null: none did.
  [[nodiscard]] const Kept<ZeroLooked>* closing_look(const Reading& reading) const {
    const Kept<ZeroLooked>* out = nullptr;
    for (const Kept<ZeroLooked>& each : job_.zero_looks) {
      const ZeroLooked& look = each.value;
      const bool closes = look.closes && look.setting == reading.setting && look.round == reading.round;
      if (closes && (out == nullptr || look.after_order >= out->value.after_order)) out = &each;
    }
    return out;
  }

  /// Whether the same device did this act later: its own count tells. Of two devices nothing does, clocks least of all.
  [[nodiscard]] bool made_after(const Kept<ZeroLooked>& look) const {
    const EventEnvelope* made = at_work_.event(look.event);
    return made != nullptr && made->device == head_.device && made->device_sequence < head_.sequence;
  }

  /// Of the reading that this one corrects, if it was of the same round: what is put right later was read then.
  [[nodiscard]] std::optional<std::int64_t> order_of_corrected(const Reading& reading) const {
    for (const Kept<Reading>& each : job_.readings) {
      if (each.event == reading.supersedes && in_same_round(each.value, reading)) return each.value.order;
    }
    return std::nullopt;
  }

  ActPayload of(const SettingAct& act) {
    need_id("setting", act.setting);
    Setting setting{act.setting, act.gauge, act.master, length(act.wanted), length(act.set), {}, {}, {}, warmth(act.master_temperature),
                    warmth(act.part_temperature)};
    read_zeros(act, setting);
    setting.locked_on = act.locked_on;
    if (act.locked_on) need_part(*act.locked_on);
    setting.afresh_of = act.afresh_of;
    if (act.afresh_of) {
      const Setting* earlier = named(job_.settings, *act.afresh_of);
      if (earlier == nullptr || earlier->gauge != act.gauge) {
        add("gauging.afresh_unknown", {verbatim("setting", act.setting), verbatim("earlier", *act.afresh_of)});
      }
    }
    both_or_none(setting);
    if (problems_.empty()) (void)setting_at_hand(job_, {"", setting}, problems_);
    return {SettingMade{std::move(setting)}, {}, {}};
  }

  void read_zeros(const SettingAct& act, Setting& setting) {
    if (!act.zeros || act.zeros->empty()) return;
    std::vector<TypedQuantity> zeros;
    for (const std::string& each : *act.zeros) {
      if (auto typed = quantity(each, typing_on_dial(job_, std::nullopt))) zeros.push_back(std::move(*typed));
    }
    if (zeros.size() != act.zeros->size()) return;
    if (zeros.size() == 1) {
      setting.opening_zero = std::move(zeros.front());
    } else {
      setting.opening_zeros = std::move(zeros);
    }
  }

  /// A correction needs both temperatures, and sizes_from refuses half of it for every reading under the setting.
  void both_or_none(const Setting& setting) {
    if (setting.part_temperature.has_value() != setting.master_temperature.has_value()) add("gauging.temperature_half", {verbatim("setting", setting.id)});
  }

  ActPayload of(const GaugeAct& act) {
    need_id("gauge", act.gauge);
    Gauge gauge{act.gauge, act.preset, length(act.division), length(act.turn), act.pressed_in, length(act.reads), length(act.on_standard), length(act.marked), {}};
    if (problems_.empty()) (void)take(know_gauge(gauge, catalogue().gauge_presets, {}), problems_);
    return {GaugeRegistered{std::move(gauge)}, {}, {}};
  }

  ActPayload of(const ZeroAct& act) {
    const Setting* setting = setting_named(act.setting);
    const auto shows = quantity(act.shows, typing_on_dial(job_, setting == nullptr ? std::nullopt : setting->plus_means));
    if (setting != nullptr && shows) {
      Setting looked = *setting;
      looked.closing_zero = shows;
      (void)setting_at_hand(job_, {"", std::move(looked)}, problems_);
    }
    if (!shows) return {};
    return {ZeroLooked{act.setting, act.round, act.after_order, *shows, act.closes}, {}, {}};
  }

  ActPayload of(const TemperaturesAct& act) {
    const Setting* setting = setting_named(act.setting);
    TemperaturesTaken taken{act.setting, warmth(act.part), warmth(act.master)};
    if (!act.part && !act.master) add("acts.nothing_taken", {verbatim("setting", act.setting)});
    if (setting != nullptr && problems_.empty()) {
      Setting after = *setting;
      if (taken.part) after.part_temperature = taken.part;
      if (taken.master) after.master_temperature = taken.master;
      both_or_none(after);
    }
    return {std::move(taken), {}, {}};
  }

  const Setting* setting_named(const std::string& id) {
    const Setting* setting = named(job_.settings, id);
    if (setting == nullptr) add("gauging.unknown_setting", {verbatim("setting", id)});
    return setting;
  }

  ActPayload of(const LimitAct& act) {
    need_id("limit", act.limit);
    if (act.thumb) return of_thumb(act);
    const Catalogue& known = catalogue();
    const Kind* kind = known.kind(act.kind);
    if (kind == nullptr) add("job.kind_unknown", {verbatim("kind", act.kind), verbatim("known", joined_ids(known.kinds))});
    const Definition* definition = known.definition(act.definition);
    const Dimension typed = definition == nullptr ? Dimension::length : typed_dimension(definition->dimension);
    TypingContext context = typing_in(job_, typed);
    if (typed == Dimension::count) context.unit = UnitId::piece;
    auto bound = quantity(act.bound, context);
    if (kind == nullptr || !bound) return {};
    Limit limit{act.limit, act.kind, act.definition, act.role, act.side, std::move(*bound), {}, {},
                {act.book.value_or(""), act.edition.value_or(""), act.page.value_or(""), "", false, false}};
    add_all(limit_problems(limit, definition, kind->feature));
    return {LimitEntered{std::move(limit)}, {}, {}};
  }

  /// A person accepts one rule of thumb as it was shown: what is no longer offered, or would give another figure now, is not what was accepted.
  ActPayload of_thumb(const LimitAct& act) {
    const std::vector<ThumbOffer> offers = thumb_offers(job_, catalogue());
    const auto offer = std::find_if(offers.begin(), offers.end(), [&](const ThumbOffer& each) { return each.id == act.thumb && each.limit; });
    if (offer == offers.end()) {
      add("acts.thumb_not_offered", {verbatim("rule", *act.thumb), verbatim("job", job_.id)});
      return {};
    }
    Limit limit = accepted_by(*offer, head_.who);
    limit.id = act.limit;
    const bool as_shown = act.kind == limit.kind && act.definition == limit.definition && act.role == limit.role && act.side == limit.side && act.bound == limit.bound.text;
    if (!as_shown) add("acts.thumb_other_figure", {verbatim("rule", *act.thumb), verbatim("bound", limit.bound.text)});
    if (act.book || act.edition || act.page) add("acts.thumb_with_book", {verbatim("rule", *act.thumb)});
    return {LimitEntered{std::move(limit)}, {}, {}};
  }

  ActPayload of(const FindingAct& act) {
    need_part(act.part);
    need_id("what", act.what);
    not_too_long("where", act.where.value_or(""));
    place_of(act);
    if (act.photo && std::none_of(job_.files.begin(), job_.files.end(), [&](const auto& each) { return each.value.hash == *act.photo; })) {
      add("acts.photo_unknown", {verbatim("photo", *act.photo)});
    }
    if (act.outcome == TestOutcome::none_found && act.weight != FindingWeight::note) add("acts.none_found_weight", {verbatim("what", act.what)});
    return {FindingSeen{{act.part, act.what, act.weight, act.where.value_or(""), length(act.depth), act.sort, act.test, act.outcome, act.station, act.direction, act.photo}}, {}, {}};
  }
  void place_of(const FindingAct& act) {
    const Part* part = named(job_.parts, act.part);
    if (part == nullptr || catalogue().kind(part->kind) == nullptr) return;
    const Layout layout = on_bench(job_, *part, catalogue()).layout;
    if (act.station && !layout.find_station(*act.station)) {
      add("gauging.unknown_station", {verbatim("station", *act.station), verbatim("part", act.part), verbatim("known", joined_ids(layout.stations))});
    }
    if (act.direction && !layout.find_direction(*act.direction)) {
      add("gauging.unknown_direction", {verbatim("direction", *act.direction), verbatim("part", act.part), verbatim("known", joined_ids(layout.directions))});
    }
  }

  void need_parts(const std::vector<std::string>& parts) {
    if (parts.empty()) add("acts.parts_none", {});
    for (const std::string& each : parts) need_part(each);
  }
  ActPayload of(const StepSeenAct& act) {
    need_parts(act.parts);
    not_too_long("seen", act.seen.value_or(""));
    Step step{act.step, length(act.offset), act.seen.value_or("")};
    if (act.offset.has_value() != (act.step == StepKind::offset)) add("acts.step_offset", {});
    return {StepSeen{act.parts, std::move(step)}, {}, {}};
  }
  ActPayload of(const StripStepAct& act) {
    if (strip_step(act.step) == nullptr) add("job.strip_step_unknown", {verbatim("step", act.step)});
    not_too_long("note", act.note.value_or(""));
    return {StripStepAnswered{act.step, act.answer, act.note.value_or("")}, {}, {}};
  }
  ActPayload of(const ReadyAct& act) {
    need_parts(act.parts);
    return {PartsReady{act.parts, act.state, head_.made_at}, {}, {}};
  }

  /// Only of a reading that counts; a second reading answers by itself.
  ActPayload of(const AnswerAct& act) {
    need_part(act.part);
    const bool there = std::any_of(job_.readings.begin(), job_.readings.end(), [&](const auto& each) { return is_of(act, each.value); });
    if (!there) add("acts.answer_no_reading", {verbatim("reading", act.reading), verbatim("part", act.part)});
    if (act.answer != QuestionAnswer::stands && act.answer != QuestionAnswer::later) add("acts.answer_by_reading", {});
    if (mistake_kind(act.mistake) == nullptr && act.mistake != "far-off") add("acts.mistake_unknown", {verbatim("mistake", act.mistake)});
    return {QuestionAnswered{act.part, act.station, act.direction, act.setting, act.reading, act.mistake, act.in_100, act.answer, {}}, {}, {}};
  }
  static bool is_of(const AnswerAct& act, const Reading& reading) {
    return reading.part == act.part && reading.station == act.station && reading.direction == act.direction && reading.setting == act.setting &&
           reading.quantity.text == act.reading;
  }

  ActPayload of(const TakeVerdictAct& act) {
    need_part(act.part);
    if (act.limit && named(job_.limits, *act.limit) == nullptr) {
      add("acts.limit_unknown", {verbatim("limit", *act.limit), verbatim("known", ids_joined(job_.limits))});
    }
    const VerdictWord said = word_of_program(act);
    const bool same = (act.word == TakenWord::within && said == VerdictWord::within) || (act.word == TakenWord::beyond && said == VerdictWord::beyond);
    const std::string why = act.why.value_or("");
    if (!same && !problems_of_reason(why).empty()) add("acts.why_needed", {verbatim("part", act.part)});
    not_too_long("why", why);
    return {VerdictTaken{act.part, act.limit, act.word, why, said}, {}, {}};
  }

  [[nodiscard]] VerdictWord word_of_program(const TakeVerdictAct& act) const {
    if (judged_ == nullptr) return VerdictWord::not_judged;
    if (act.limit) {
      for (const Verdict& each : judged_->judgement.verdicts) {
        if (each.part == act.part && each.limit == *act.limit) return each.word;
      }
      return VerdictWord::not_judged;
    }
    for (const PartState& each : judged_->judgement.states) {
      if (each.part == act.part) return word_of(each.word);
    }
    return VerdictWord::not_judged;
  }

  ActPayload of(const WithdrawAct& act) {
    add_all(problems_of_reason(act.why));
    const auto& withdrawn = job_.withdrawn;
    if (std::any_of(withdrawn.begin(), withdrawn.end(), [&](const auto& each) { return each.value.event == act.event; })) {
      add("record.withdrawn_already", {verbatim("event", act.event), verbatim("job", job_.id)});
    }
    return {EventWithdrawn{act.event, act.why}, {}, {}};
  }

  ActPayload of(const SheetAct& act) {
    SheetDraftRead read = read_sheet_draft(act.draft, catalogue());
    add_all(draft_problems(read));
    SheetEntered entered{act.sheet, std::move(read.sheet), act.why.value_or("")};
    not_too_long("why", entered.why);
    if (problems_.empty()) add_all(problems_of_sheet(job_, entered));
    return {std::move(entered), {}, {}};
  }

  const JobAtWork& at_work_;
  const Job& job_;
  const ActHead& head_;
  const JudgedJob* judged_;
  Problems problems_;
};

}  // namespace

Result<ActPayload> act_payload(const JobAtWork& at_work, const Act& act, const JudgedJob* judged) { return ReadAct(at_work, act.head, judged).run(act.body); }

}  // namespace fettle
