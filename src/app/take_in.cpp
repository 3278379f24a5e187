#include "app/take_in.h"

#include <algorithm>
#include <set>
#include <tuple>
#include <unordered_map>

#include "app/reason.h"
#include "base/digest.h"
#include "base/joined.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

constexpr std::size_t kMostNamed = 20;

/// In a few words, so that a person finds the line: "reading of bore-1, top, thrust: 57 acw".
std::string name_of(const Payload& payload) {
  struct Name {
    std::string operator()(const JobOpened&) const { return "[job]"; }
    std::string operator()(const EngineDescribed&) const { return "[engine]"; }
    std::string operator()(const LayoutChosen& chosen) const { return "[[layout]] " + chosen.kind; }
    std::string operator()(const PartEntered& entered) const { return "[[part]] " + entered.part.id; }
    std::string operator()(const FindingSeen& seen) const { return "[[finding]] " + seen.finding.part + ": " + seen.finding.what; }
    std::string operator()(const GaugeRegistered& gauge) const { return "[[gauge]] " + gauge.gauge.id; }
    std::string operator()(const SettingMade& made) const { return "[[setting]] " + made.setting.id; }
    std::string operator()(const GaugeFoundOut& found) const { return "[[found_out]] " + found.found.gauge; }
    std::string operator()(const GaugeStudied& studied) const { return "[[study]] " + studied.study.gauge; }
    std::string operator()(const ReadingTaken& taken) const {
      const Reading& reading = taken.reading;
      return reading.part + ", " + reading.station + ", " + reading.direction + ": " + reading.quantity.text;
    }
    std::string operator()(const LimitEntered& entered) const { return "[[limit]] " + entered.limit.id; }
    std::string operator()(const SheetEntered& entered) const { return "[[sheet]] " + entered.sheet; }
    std::string operator()(const RuleChosen&) const { return "[rule]"; }
    std::string operator()(const EventWithdrawn& withdrawn) const { return withdrawn.event; }
    std::string operator()(const FileAttached& attached) const { return attached.name; }
    std::string operator()(const ZeroLooked& looked) const { return looked.setting + ": " + looked.shows.text; }
    std::string operator()(const TemperaturesTaken& taken) const { return taken.setting; }
    std::string operator()(const VerdictTaken& taken) const { return taken.part; }
    std::string operator()(const StepSeen& seen) const { return joined(seen.parts); }
    std::string operator()(const StripStepAnswered& answered) const { return "[[strip]] " + answered.step; }
    std::string operator()(const QuestionAnswered& answered) const { return "[[answer]] " + answered.part + ": " + answered.reading; }
    std::string operator()(const PartsReady& ready) const { return "[[ready]] " + joined(ready.parts); }
  };
  return std::visit(Name{}, payload);
}

bool same_turn(const Reading& a, const Reading& b) {
  return std::tie(a.part, a.station, a.direction, a.setting, a.round, a.order) == std::tie(b.part, b.station, b.direction, b.setting, b.round, b.order);
}

class TakingIn {
 public:
  /// `imported`: at least one, all of one job. `there` must outlive this.
  TakingIn(std::vector<EventEnvelope> imported, const std::vector<EventEnvelope>& there)
      : imported_(std::move(imported)), there_(there), job_(imported_.front().job), folder_(imported_.front().device) {
    for (const EventEnvelope& each : imported_) now_.insert(each.id);
    for (const EventEnvelope& each : there_) known_.emplace(each.id, &each);
    // From the last to the first, as fold does it: which withdrawal of an event stands.
    for (auto event = there_.rbegin(); event != there_.rend(); ++event) {
      const auto* withdrawal = std::get_if<EventWithdrawn>(&event->payload);
      if (withdrawal != nullptr && !withdrawn_by_.contains(event->id)) withdrawn_by_.emplace(withdrawal->event, &*event);
    }
    for (const EventEnvelope& each : there_) {
      if (const auto old = superseded_by(each); old && !withdrawn_by_.contains(each.id)) superseded_.insert(*old);
    }
  }

  /// Events of the folder that the folder holds no longer, and that still count.
  [[nodiscard]] std::vector<const EventEnvelope*> gone() const {
    std::vector<const EventEnvelope*> out;
    for (const EventEnvelope& each : there_) {
      const bool of_folder = each.device == folder_ && !std::holds_alternative<EventWithdrawn>(each.payload);
      if (of_folder && !now_.contains(each.id) && !withdrawn_by_.contains(each.id)) out.push_back(&each);
    }
    return out;
  }

  /// Readings that were put right in the record, while the folder no longer says what was put right: two would stand for one.
  [[nodiscard]] std::vector<const EventEnvelope*> corrected_elsewhere() const {
    std::vector<const EventEnvelope*> out;
    for (const EventEnvelope& each : there_) {
      if (!superseded_by(each) || withdrawn_by_.contains(each.id) || superseded_.contains(each.id)) continue;
      const EventEnvelope& first = first_of(each);
      if (first.device == folder_ && !now_.contains(first.id)) out.push_back(&each);
    }
    return out;
  }

  [[nodiscard]] bool set_aside_elsewhere(const std::string& id) const {
    const auto away = withdrawn_by_.find(id);
    return superseded_.contains(id) || (away != withdrawn_by_.end() && away->second->device != folder_);
  }

  /// Whether the folder and the record have anything in common but the job's id.
  [[nodiscard]] bool shares_nothing() const {
    const bool of_folder = std::any_of(there_.begin(), there_.end(), [&](const EventEnvelope& each) { return each.device == folder_; });
    return of_folder && std::none_of(imported_.begin(), imported_.end(), [&](const EventEnvelope& each) { return known_.contains(each.id); });
  }

  /// "bore-1, mid, thrust: 32 acw -> 23 acw" where the folder has another reading in its turn; the same text twice: another cell changed.
  [[nodiscard]] std::string was_and_is(const EventEnvelope& gone) const {
    const auto* was = std::get_if<ReadingTaken>(&gone.payload);
    for (const EventEnvelope& each : imported_) {
      const auto* is = std::get_if<ReadingTaken>(&each.payload);
      if (was != nullptr && is != nullptr && !known_.contains(each.id) && same_turn(was->reading, is->reading)) {
        return name_of(gone.payload) + " -> " + is->reading.quantity.text;
      }
    }
    return name_of(gone.payload);
  }

  /// Withdrawals first, so that what is entered anew finds its id free.
  [[nodiscard]] std::vector<EventEnvelope> events(const std::string& why, const Doing& doing, TakenIn& out) {
    for (const EventEnvelope& each : there_) {
      if (each.device == folder_) sequence_ = std::max(sequence_, each.device_sequence);
    }
    std::vector<EventEnvelope> more;
    for (const EventEnvelope* each : gone()) {
      more.push_back(withdrawal(each->id, why, doing));
      ++out.withdrawn;
    }
    for (EventEnvelope& each : imported_) {
      const auto there = known_.find(each.id);
      const auto away = withdrawn_by_.find(each.id);
      // What somebody took back elsewhere stays so, whatever the folder says.
      if (away != withdrawn_by_.end() && away->second->device == folder_) more.push_back(withdrawal(away->second->id, why, doing));
      if (there != known_.end()) {
        ++out.there;
        if (set_aside_elsewhere(each.id)) ++out.aside;
        continue;
      }
      each.device_sequence = ++sequence_;
      more.push_back(std::move(each));
      ++out.fresh;
    }
    return more;
  }

 private:
  static std::optional<std::string> superseded_by(const EventEnvelope& event) {
    const auto* taken = std::get_if<ReadingTaken>(&event.payload);
    return taken == nullptr ? std::nullopt : taken->reading.supersedes;
  }
  /// The reading that a correction, or the correction of one, goes back to.
  [[nodiscard]] const EventEnvelope& first_of(const EventEnvelope& correction) const {
    const EventEnvelope* out = &correction;
    for (auto old = superseded_by(*out); old; old = superseded_by(*out)) {
      const auto found = known_.find(*old);
      if (found == known_.end() || found->second == out) break;
      out = found->second;
    }
    return *out;
  }

  EventEnvelope withdrawal(const std::string& event, const std::string& why, const Doing& doing) {
    EventEnvelope out{digest({"withdrawn", event, std::to_string(there_.size()), why, doing.who, doing.at}), job_, folder_, ++sequence_, doing.at, doing.who,
                      EventWithdrawn{event, why}};
    return out;
  }

  std::vector<EventEnvelope> imported_;
  const std::vector<EventEnvelope>& there_;
  const std::string job_;
  const std::string folder_;   ///< the device of folders
  std::set<std::string> now_;  ///< ids that the folder holds
  std::unordered_map<std::string, const EventEnvelope*> known_;
  std::unordered_map<std::string, const EventEnvelope*> withdrawn_by_;  ///< event -> the withdrawal that stands
  std::set<std::string> superseded_;  ///< by a correction that stands
  std::int64_t sequence_ = 0;
};

Problem folder_changed(const std::string& job, const std::vector<const EventEnvelope*>& gone, const TakingIn& taking) {
  std::vector<std::string> named;
  for (std::size_t i = 0; i < gone.size() && i < kMostNamed; ++i) named.push_back(taking.was_and_is(*gone[i]));
  if (gone.size() > kMostNamed) named.push_back("+ " + std::to_string(gone.size() - kMostNamed));
  return {"record.folder_changed", {}, {verbatim("job", job), count("lines", static_cast<std::int64_t>(gone.size())), verbatim("named", joined(named, "; "))}};
}

}  // namespace

Result<TakenIn> take_in(Store& store, const FolderTexts& texts, const std::optional<std::string>& corrected, const Doing& doing) {
  Imported imported = import_folder(texts);
  if (!imported.problems.empty()) return std::move(imported.problems);
  const std::string job = imported.events.front().job;
  RecordedJob there{};
  if (store.last(job)) {
    Result<RecordedJob> recorded = open_recorded(store, job);
    if (!recorded.ok()) return recorded.problems();
    there = std::move(recorded).value();
  }
  TakingIn taking(std::move(imported.events), there.events);
  if (taking.shares_nothing()) return Problem{"record.another_job", {}, {verbatim("job", job)}};
  if (Problems wrong = corrected ? problems_of_reason(*corrected) : Problems{}; !wrong.empty()) return wrong;
  const auto gone = taking.gone();
  if (!gone.empty() && !corrected) return folder_changed(job, gone, taking);
  Problems problems;
  for (const EventEnvelope* each : taking.corrected_elsewhere()) {
    problems.push_back({"record.corrected_elsewhere", {}, {verbatim("job", job), verbatim("named", name_of(each->payload))}});
  }
  if (!problems.empty()) return problems;
  TakenIn out{job, 0, 0, 0, 0};
  const std::vector<EventEnvelope> more = taking.events(corrected.value_or(""), doing, out);
  const Result<std::vector<Accepted>> accepted = append_events(store, there, more);
  if (!accepted.ok()) return accepted.problems();
  return out;
}

}  // namespace fettle
