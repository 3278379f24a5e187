#include "app/next_page.h"

#include <algorithm>
#include <cmath>

#include "app/part_words.h"
#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "units/print.h"

namespace fettle {
namespace {

constexpr std::size_t kActsSaid = 3;
constexpr double kTenths = 10.0;

class NextWords {
 public:
  NextWords(const JudgedJob& judged, Language language) : judged_(judged), language_(language) {}

  NextPage::Advice advice(const AdviceFor& of) const {
    NextPage::Advice out{{}, of.kind, "", "", {}, {}};
    if (!of.part.empty()) out.part = of.part;
    out.name = sentence(of.part.empty() ? group_message(of.kind) : part_message(part(of.part)), language_);
    out.doubt = word_for("next.doubt." + std::string(doubt_name(of.doubt.largest())), language_);
    for (const NextAct& each : of.acts) {
      if (out.acts.size() < kActsSaid) out.acts.push_back(act(each));
    }
    for (const NextAct& each : of.useless) out.useless.push_back(act(each));
    return out;
  }

  [[nodiscard]] NextPage::Act act(const NextAct& each) const {
    NextPage::Act out{std::string(act_sort_name(each.sort)), sentence(what(each), language_), sentence(time(each), language_),
                      sentence(settles(each), language_), print_fixed(each.settles, 2), print_fixed(each.minutes, 1), each.setting, {}, {}};
    for (const NextPlace& place : each.places) out.places.push_back(placed(place));
    if (each.useless) out.why = word_for("next.useless." + std::string(useless_name(*each.useless)), language_);
    return out;
  }

 private:
  [[nodiscard]] const Part& part(const std::string& id) const {
    const PartOnBench* found = find_part(judged_.parts, id);
    FETTLE_ASSERT(found != nullptr, id);
    return found->part;
  }

  [[nodiscard]] NextPage::Place placed(const NextPlace& place) const {
    const Layout& layout = find_part(judged_.parts, place.part)->layout;
    return {place.part, layout.stations[place.cell / layout.directions.size()].id, layout.directions[place.cell % layout.directions.size()].id,
            static_cast<std::int64_t>(place.setting) + 1, static_cast<std::int64_t>(place.times), sentence(place_message(place), language_)};
  }

  [[nodiscard]] Message place_message(const NextPlace& place) const {
    const Layout& layout = find_part(judged_.parts, place.part)->layout;
    std::vector<Argument> arguments = {part_argument("part", part(place.part)),
                                       station_argument("station", layout.stations[place.cell / layout.directions.size()].id),
                                       direction_argument("direction", layout.directions[place.cell % layout.directions.size()].id)};
    if (place.times == 1) return {"next.place", std::move(arguments)};
    arguments.push_back(count("n", static_cast<std::int64_t>(place.times)));
    return {"next.place_times", std::move(arguments)};
  }

  [[nodiscard]] Argument places(const char* name, const NextAct& act, std::size_t setting) const {
    std::vector<Message> out;
    for (const NextPlace& each : act.places) {
      if (each.setting == setting) out.push_back(place_message(each));
    }
    return list(name, std::move(out));
  }

  [[nodiscard]] Message what(const NextAct& act) const {
    const std::string key = "next.act." + std::string(act_sort_name(act.sort));
    if (act.sort != ActSort::set_afresh_twice) return {key, {places("places", act, 0)}};
    return {key, {places("places", act, 0), places("then", act, 1)}};
  }

  static Message time(const NextAct& act) {
    const double work = act.minutes - act.waiting;
    const Argument minutes = count("minutes", std::max<std::int64_t>(static_cast<std::int64_t>(work + 0.5), 1));
    if (act.waiting <= 0.0) return {"next.time", {minutes}};
    return {"next.time_waiting", {minutes, count("waiting", static_cast<std::int64_t>(act.waiting + 0.5))}};
  }

  static Message settles(const NextAct& act) {
    if (act.settled.size() > 1) {
      return {"next.settles_parts", {decimal("parts", print_fixed(act.settles, 1)), count("open", static_cast<std::int64_t>(act.settled.size()))}};
    }
    const auto tenths = static_cast<std::int64_t>(act.settles * kTenths + 0.5);
    if (tenths <= 0) return {"next.settles_hardly", {}};
    if (tenths >= 10) return {"next.settles_nearly", {}};
    return {"next.settles", {count("n", tenths)}};
  }

  const JudgedJob& judged_;
  Language language_;
};

std::string head_of(const JudgedJob& judged, const Advice& advice, const NextPage& page, Language language) {
  std::vector<const Part*> open;
  for (const PartState& each : judged.judgement.states) {
    if (each.word == StateWord::too_close) open.push_back(&find_part(judged.parts, each.part)->part);
  }
  if (open.empty()) {
    std::vector<const Part*> unread;
    for (const AdviceFor& each : advice.parts) unread.push_back(&find_part(judged.parts, each.part)->part);
    if (unread.empty() || page.parts.front().acts.empty()) return word_for("next.head_none", language);
    const NextPage::Act& first = page.parts.front().acts.front();
    return sentence({"next.head_unread", {list("parts", parts_by_kind(unread)), verbatim("what", first.what), verbatim("time", first.time)}}, language);
  }
  const Argument parts = list("parts", parts_by_kind(open));
  if (advice.groups.empty()) return sentence({"next.head_open", {parts}}, language);
  if (advice.groups.front().acts.empty()) return sentence({"next.head_not_worth", {parts}}, language);
  const NextPage::Act& best = page.groups.front().acts.front();
  return sentence({"next.head_best", {parts, verbatim("what", best.what), verbatim("time", best.time), verbatim("settles", best.settles)}}, language);
}

}  // namespace

std::string act_line(const NextPage::Act& act, Language language) {
  if (act.why) return sentence({"next.line_useless", {verbatim("what", act.what), verbatim("why", *act.why)}}, language);
  return sentence({"next.line", {verbatim("what", act.what), verbatim("time", act.time), verbatim("settles", act.settles)}}, language);
}

Advice next_reading(const JudgedJob& judged) {
  return next_acts({judged.parts, judged.groups, judged.judgement, judged.job.limits, judged.job.settings, judged.sizes});
}

NextPage next_page(const JudgedJob& judged, const Advice& advice, std::int64_t position, Language language) {
  const NextWords words(judged, language);
  NextPage out{judged.job.id, position, "", {}, {}, {}};
  for (const AdviceFor& each : advice.groups) out.groups.push_back(words.advice(each));
  for (const AdviceFor& each : advice.parts) out.parts.push_back(words.advice(each));
  out.head = head_of(judged, advice, out, language);
  std::vector<const Part*> by_formula;
  for (const std::string& each : advice.not_worked_out) by_formula.push_back(&find_part(judged.parts, each)->part);
  if (!by_formula.empty()) out.notes.push_back(sentence({"next.by_formula", {list("parts", parts_by_kind(by_formula))}}, language));
  return out;
}

}  // namespace fettle
