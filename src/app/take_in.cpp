#include "app/take_in.h"

#include <algorithm>
#include <set>
#include <tuple>
#include <unordered_map>

#include "base/digest.h"
#include "base/joined.h"
#include "wire/event_json.h"

namespace fettle {
namespace {

constexpr std::size_t kMostNamed = 8;

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
    std::string operator()(const ReadingTaken& taken) const {
      const Reading& reading = taken.reading;
      return reading.part + ", " + reading.station + ", " + reading.direction + ": " + reading.quantity.text;
    }
    std::string operator()(const LimitEntered& entered) const { return "[[limit]] " + entered.limit.id; }
    std::string operator()(const RuleChosen&) const { return "[rule]"; }
    std::string operator()(const EventWithdrawn& withdrawn) const { return withdrawn.event; }
    std::string operator()(const FileAttached& attached) const { return attached.name; }
  };
  return std::visit(Name{}, payload);
}

bool same_turn(const Reading& a, const Reading& b) {
  return std::tie(a.part, a.station, a.direction, a.setting, a.round, a.order) == std::tie(b.part, b.station, b.direction, b.setting, b.round, b.order);
}

class TakingIn {
 public:
  TakingIn(std::vector<EventEnvelope> imported, std::vector<EventEnvelope> there) : imported_(std::move(imported)), there_(std::move(there)) {
    for (const EventEnvelope& each : there_) known_.emplace(each.id, &each);
    // From the last to the first, as fold does it: which withdrawal of an event stands.
    for (auto event = there_.rbegin(); event != there_.rend(); ++event) {
      const auto* withdrawal = std::get_if<EventWithdrawn>(&event->payload);
      if (withdrawal != nullptr && !withdrawn_by_.contains(event->id)) withdrawn_by_.emplace(withdrawal->event, &*event);
    }
  }

  /// Events of the folder that the folder holds no longer, and that still count.
  [[nodiscard]] std::vector<const EventEnvelope*> gone() const {
    std::set<std::string> now;
    for (const EventEnvelope& each : imported_) now.insert(each.id);
    std::vector<const EventEnvelope*> out;
    const std::string& folder = imported_.front().device;
    for (const EventEnvelope& each : there_) {
      const bool of_folder = each.device == folder && !std::holds_alternative<EventWithdrawn>(each.payload);
      if (of_folder && !now.contains(each.id) && !withdrawn_by_.contains(each.id)) out.push_back(&each);
    }
    return out;
  }

  /// Readings of the folder that are new where a correction made elsewhere stands: two would stand for one.
  [[nodiscard]] std::vector<const EventEnvelope*> corrected_elsewhere() const {
    std::set<std::string> superseded;
    for (const EventEnvelope& each : there_) {
      const auto* taken = std::get_if<ReadingTaken>(&each.payload);
      if (taken != nullptr && taken->reading.supersedes) superseded.insert(*taken->reading.supersedes);
    }
    std::vector<const EventEnvelope*> out;
    for (const EventEnvelope& each : there_) {
      const auto* taken = std::get_if<ReadingTaken>(&each.payload);
      const bool stands = taken != nullptr && each.device != imported_.front().device && !withdrawn_by_.contains(each.id) && !superseded.contains(each.id);
      if (!stands || !taken->reading.order) continue;
      const bool also = std::any_of(imported_.begin(), imported_.end(), [&](const EventEnvelope& fresh) {
        const auto* reading = std::get_if<ReadingTaken>(&fresh.payload);
        return reading != nullptr && !known_.contains(fresh.id) && same_turn(reading->reading, taken->reading);
      });
      if (also) out.push_back(&each);
    }
    return out;
  }

  /// Withdrawals first, so that what is entered anew finds its id free.
  [[nodiscard]] std::vector<EventEnvelope> events(const std::string& why, const Doing& doing, TakenIn& out) {
    for (const EventEnvelope& each : there_) {
      if (each.device == imported_.front().device) sequence_ = std::max(sequence_, each.device_sequence);
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
      if (away != withdrawn_by_.end() && away->second->device == imported_.front().device) more.push_back(withdrawal(away->second->id, why, doing));
      if (there != known_.end()) {
        ++out.there;
        continue;
      }
      each.device_sequence = ++sequence_;
      more.push_back(std::move(each));
      ++out.fresh;
    }
    return more;
  }

 private:
  EventEnvelope withdrawal(const std::string& event, const std::string& why, const Doing& doing) {
    const EventEnvelope& first = there_.front();
    EventEnvelope out{digest({"withdrawn", event, std::to_string(there_.size())}), first.job, imported_.front().device, ++sequence_, doing.at, doing.who,
                      EventWithdrawn{event, why}};
    return out;
  }

  std::vector<EventEnvelope> imported_;
  std::vector<EventEnvelope> there_;
  std::unordered_map<std::string, const EventEnvelope*> known_;
  std::unordered_map<std::string, const EventEnvelope*> withdrawn_by_;  ///< event -> the withdrawal that stands
  std::int64_t sequence_ = 0;
};

Problem folder_changed(const std::string& job, const std::vector<const EventEnvelope*>& gone) {
  std::vector<std::string> named;
  for (std::size_t i = 0; i < gone.size() && i < kMostNamed; ++i) named.push_back(name_of(gone[i]->payload));
  return {"record.folder_changed", {}, {verbatim("job", job), count("lines", static_cast<std::int64_t>(gone.size())), verbatim("named", joined(named, "; "))}};
}

}  // namespace

Result<TakenIn> take_in(Store& store, const FolderTexts& texts, const std::optional<std::string>& corrected, const Doing& doing) {
  Imported imported = import_folder(texts);
  if (!imported.problems.empty()) return std::move(imported.problems);
  const std::string job = imported.events.front().job;
  std::vector<EventEnvelope> there;
  if (store.last(job)) {
    Result<RecordedJob> recorded = open_recorded(store, job);
    if (!recorded.ok()) return recorded.problems();
    there = std::move(recorded).value().events;
  }
  TakingIn taking(std::move(imported.events), there);
  const auto gone = taking.gone();
  if (!gone.empty() && !corrected) return folder_changed(job, gone);
  Problems problems;
  for (const EventEnvelope* each : taking.corrected_elsewhere()) {
    problems.push_back({"record.corrected_elsewhere", {}, {verbatim("job", job), verbatim("named", name_of(each->payload))}});
  }
  if (!problems.empty()) return problems;
  TakenIn out{job, 0, 0, 0};
  const std::vector<EventEnvelope> more = taking.events(corrected.value_or(""), doing, out);
  const Result<std::vector<Accepted>> accepted = append_events(store, there, more);
  if (!accepted.ok()) return accepted.problems();
  return out;
}

}  // namespace fettle
