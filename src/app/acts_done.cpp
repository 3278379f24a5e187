#include "app/acts_done.h"

#include <set>

#include "app/part_words.h"
#include "catalogue/file_words.h"
#include "catalogue/strip_steps.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

class InWords {
 public:
  explicit InWords(const RecordedJob& recorded) : recorded_(recorded) {}

  Message operator()(const JobOpened& payload) const { return {"act_done.opened", {verbatim("name", payload.name)}}; }
  Message operator()(const EngineDescribed& payload) const { return {"act_done.engine", {verbatim("name", payload.name)}}; }
  Message operator()(const LayoutChosen& payload) const { return {"act_done.layout", {list("group", {group_message(payload.kind)})}}; }
  Message operator()(const PartEntered& payload) const { return {"act_done.part", {part_argument("part", payload.part)}}; }
  Message operator()(const FindingSeen& payload) const { return {"act_done.finding", {part("part", payload.finding.part), verbatim("what", payload.finding.what)}}; }
  Message operator()(const GaugeRegistered& payload) const {
    return {"act_done.gauge", {verbatim("gauge", payload.gauge.id), word("preset", "gauge_preset." + payload.gauge.preset)}};
  }
  Message operator()(const SettingMade& payload) const {
    const Setting& setting = payload.setting;
    const Argument gauge = verbatim("gauge", setting.gauge);
    if (!setting.master) return {"act_done.taken_to_hand", {gauge}};
    const Argument master = verbatim("master", *setting.master);
    if (setting.set) return {"act_done.set_at", {gauge, master, verbatim("set", setting.set->text)}};
    return {"act_done.set_on", {gauge, master}};
  }
  Message operator()(const GaugeFoundOut& payload) const {
    return {"act_done.found_out", {verbatim("gauge", payload.found.gauge), verbatim("what", payload.found.what)}};
  }
  Message operator()(const ReadingTaken& payload) const {
    const Reading& reading = payload.reading;
    std::vector<Argument> arguments = {part("part", reading.part), station_argument("station", reading.station), direction_argument("direction", reading.direction),
                                       verbatim("text", reading.quantity.text)};
    std::string key = reading.supersedes ? "act_done.reading_again" : "act_done.reading";
    if (reading.flag != ReadingFlag::none) {
      key = "act_done.reading_flagged";
      arguments.push_back(word("flag", "flag." + std::string(flag_name(reading.flag))));
    }
    return {key, std::move(arguments)};
  }
  Message operator()(const LimitEntered& payload) const {
    const Limit& limit = payload.limit;
    return {limit.origin.rule_of_thumb ? "act_done.limit_thumb" : "act_done.limit", {list("group", {group_message(limit.kind)}), definition(limit), verbatim("bound", limit.bound.text)}};
  }
  Message operator()(const SheetEntered& payload) const {
    return {"act_done.sheet", {verbatim("sheet", payload.sheet), verbatim("book", payload.of.book), count("rows", static_cast<std::int64_t>(payload.of.rows.size()))}};
  }
  Message operator()(const GaugeStudied& payload) const {
    return {payload.study.person ? "act_done.studied_of" : "act_done.studied",
            {verbatim("gauge", payload.study.gauge), verbatim("person", payload.study.person.value_or("")), verbatim("repeatability", payload.study.repeatability.text)}};
  }
  Message operator()(const RuleChosen&) const { return {"act_done.rule", {}}; }
  Message operator()(const EventWithdrawn& payload) const {
    for (const EventEnvelope& each : recorded_.events) {
      if (each.id == payload.event && !std::holds_alternative<EventWithdrawn>(each.payload)) {
        return {"act_done.withdrawn", {list("what", {std::visit(*this, each.payload)}), verbatim("why", payload.why)}};
      }
    }
    return {"act_done.brought_back", {verbatim("why", payload.why)}};
  }
  Message operator()(const ZeroLooked& payload) const {
    return {payload.closes ? "act_done.zero_closed" : "act_done.zero_looked", {gauge_set("gauge", payload.setting), verbatim("text", payload.shows.text)}};
  }
  Message operator()(const TemperaturesTaken& payload) const {
    return {"act_done.temperatures", {verbatim("part", payload.part ? payload.part->text : "–"), verbatim("master", payload.master ? payload.master->text : "–")}};
  }
  Message operator()(const VerdictTaken& payload) const {
    const char* key = payload.word == TakenWord::within ? "act_done.taken_within" : "act_done.taken_beyond";
    return {key, {part("part", payload.part), verbatim("why", payload.why)}};
  }
  Message operator()(const StepSeen& payload) const {
    std::vector<Argument> arguments = {list("parts", parts(payload.parts)), verbatim("seen", payload.step.seen_where)};
    if (payload.step.offset) arguments.push_back(verbatim("offset", payload.step.offset->text));
    return {"act_done.step_seen." + std::string(step_kind_name(payload.step.kind)) + (payload.step.seen_where.empty() ? "" : "_where"), std::move(arguments)};
  }
  Message operator()(const StripStepAnswered& payload) const {
    const bool known = strip_step(payload.step) != nullptr;
    return {"act_done.strip." + std::string(word_of(kStripAnswers, payload.answer).value_or("")),
            {known ? word("step", "strip_step." + payload.step) : verbatim("step", payload.step)}};
  }
  Message operator()(const QuestionAnswered& payload) const {
    return {"act_done.answer." + std::string(word_of(kQuestionAnswers, payload.answer).value_or("")),
            {part("part", payload.part), station_argument("station", payload.station), direction_argument("direction", payload.direction), verbatim("text", payload.reading)}};
  }
  Message operator()(const PartsReady& payload) const {
    return {"act_done.ready", {list("parts", parts(payload.parts)), word("state", "made_ready." + std::string(word_of(kMeasuredWhen, payload.state).value_or("")))}};
  }
  Message operator()(const FileAttached& payload) const {
    if (payload.part) return {"act_done.file_of_part", {part("part", *payload.part)}};
    return {"act_done.file", {}};
  }

 private:
  [[nodiscard]] Argument part(std::string name, const std::string& id) const {
    const Part* found = part_of(recorded_.job, id);
    return found == nullptr ? verbatim(std::move(name), id) : part_argument(std::move(name), *found);
  }

  [[nodiscard]] std::vector<Message> parts(const std::vector<std::string>& ids) const {
    std::vector<const Part*> known;
    for (const std::string& id : ids) {
      if (const Part* part = part_of(recorded_.job, id); part != nullptr) known.push_back(part);
    }
    return parts_by_kind(known);
  }

  [[nodiscard]] Argument gauge_set(std::string name, const std::string& setting) const {
    for (const auto& each : recorded_.job.settings) {
      if (each.value.id == setting) return verbatim(std::move(name), each.value.gauge);
    }
    return verbatim(std::move(name), setting);
  }
  [[nodiscard]] static Argument definition(const Limit& limit) {
    const Kind* kind = catalogue().kind(limit.kind);
    return word("definition", "definition." + limit.definition + (kind == nullptr ? "" : "." + std::string(feature_name(kind->feature))));
  }

  const RecordedJob& recorded_;
};

/// What was withdrawn by an event that stands, and readings that were corrected.
std::set<std::string> fallen(const RecordedJob& recorded) {
  std::set<std::string> out;
  for (const auto& each : recorded.job.superseded_readings) out.insert(each.event);
  for (auto each = recorded.events.rbegin(); each != recorded.events.rend(); ++each) {
    const auto* withdrawal = std::get_if<EventWithdrawn>(&each->payload);
    if (withdrawal != nullptr && !out.contains(each->id)) out.insert(withdrawal->event);
  }
  return out;
}

}  // namespace

std::vector<ActInWords> acts_done(const RecordedJob& recorded, std::size_t most) {
  const std::set<std::string> gone = fallen(recorded);
  std::vector<ActInWords> out;
  for (std::size_t i = recorded.events.size(); i-- > 0 && out.size() < most;) {
    const EventEnvelope& event = recorded.events[i];
    out.push_back({event.id, event.made_at.empty() ? recorded.accepted[i].accepted_at : event.made_at, event.who, std::visit(InWords(recorded), event.payload),
                   !gone.contains(event.id)});
  }
  return out;
}

}  // namespace fettle
