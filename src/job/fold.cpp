#include "job/fold.h"

#include <algorithm>
#include <unordered_map>
#include <unordered_set>

#include "job/limits_of_sheets.h"
#include "job/settings_in_use.h"
#include "job/steps_seen.h"
#include "job/studies.h"

namespace fettle {
namespace {

template <class T>
const std::string& id_of(const T& value) {
  if constexpr (requires { value.id; }) {
    return value.id;
  } else {
    return value.sheet;
  }
}

class Folder {
 public:
  Folded run(const std::vector<EventEnvelope>& events) {
    out_.job.rule = usual_rule();
    withdrawn_ = withdrawn_among(events);
    for (const EventEnvelope& event : events) accept(event);
    drop_superseded();
    in_order_of_entry("part", out_.job.parts);
    in_order_of_entry("gauge", out_.job.gauges);
    in_order_of_entry("setting", out_.job.settings);
    in_order_of_entry("limit", out_.job.limits);
    in_order_of_entry("sheet", out_.job.sheets);
    for (const auto& seen : out_.job.steps_seen) stand_at(out_.job.parts, seen.value);
    see_in_use(out_.job);
    add_limits_of_sheets(out_.job, out_.problems);
    return std::move(out_);
  }

 private:
  /// From the last to the first: a withdrawal that was itself withdrawn takes nothing away.
  static std::unordered_set<std::string> withdrawn_among(const std::vector<EventEnvelope>& events) {
    std::unordered_set<std::string> out;
    for (auto event = events.rbegin(); event != events.rend(); ++event) {
      const auto* withdrawal = std::get_if<EventWithdrawn>(&event->payload);
      if (withdrawal != nullptr && !out.contains(event->id)) out.insert(withdrawal->event);
    }
    return out;
  }

  void accept(const EventEnvelope& event) {
    const auto [seen, fresh] = seen_.emplace(event.id, &event);
    if (!fresh) {
      if (*seen->second != event) add("job.same_id_other_content", {verbatim("event", event.id)});
      return;
    }
    if (out_.job.id.empty()) out_.job.id = event.job;
    if (out_.job.id != event.job) {
      add("job.another_job", {verbatim("event", event.id), verbatim("job", event.job)});
      return;
    }
    if (!counts(event.id) && set_aside(event)) return;
    keep_reader(out_.job, event);
    std::visit([&](const auto& payload) { apply(event.id, payload); }, event.payload);
  }

  [[nodiscard]] bool counts(const std::string& event) const { return !withdrawn_.contains(event); }

  void apply(const std::string& id, const EventWithdrawn& payload) {
    if (payload.event == id || !seen_.contains(payload.event)) {
      add("job.withdraws_unknown", {verbatim("event", payload.event)});
    } else if (counts(id)) {
      out_.job.withdrawn.push_back({id, payload});
    }
  }
  void apply(const std::string& id, const FileAttached& payload) { out_.job.files.push_back({id, payload}); }
  void apply(const std::string& id, const ZeroLooked& payload) { out_.job.zero_looks.push_back({id, payload}); }
  void apply(const std::string& id, const TemperaturesTaken& payload) { out_.job.temperatures.push_back({id, payload}); }
  void apply(const std::string& id, const VerdictTaken& payload) {
    std::erase_if(out_.job.taken, [&](const auto& each) { return each.value.part == payload.part && each.value.limit == payload.limit; });
    out_.job.taken.push_back({id, payload});
  }
  void apply(const std::string& id, const StepSeen& payload) { out_.job.steps_seen.push_back({id, payload}); }
  void apply(const std::string& id, const StripStepAnswered& payload) {
    std::erase_if(out_.job.strip_answers, [&](const auto& each) { return each.value.step == payload.step; });
    out_.job.strip_answers.push_back({id, payload});
  }
  void apply(const std::string& id, const QuestionAnswered& payload) {
    std::erase_if(out_.job.answers, [&](const auto& each) { return answers_same(each.value, payload); });
    out_.job.answers.push_back({id, payload});
  }
  void apply(const std::string& id, const PartsReady& payload) { out_.job.ready.push_back({id, payload}); }
  void apply(const std::string& id, const JobOpened& payload) { out_.job.opened = Kept<JobOpened>{id, payload}; }
  void apply(const std::string& id, const EngineDescribed& payload) { out_.job.engine = Kept<EngineDescribed>{id, payload}; }
  void apply(const std::string& id, const LayoutChosen& payload) {
    auto& layouts = out_.job.layouts;
    std::erase_if(layouts, [&](const auto& each) { return each.value.kind == payload.kind; });
    layouts.push_back({id, payload});
  }
  void apply(const std::string& id, const PartEntered& payload) { keep("part", id, payload.part, out_.job.parts); }
  void apply(const std::string& id, const FindingSeen& payload) { out_.job.findings.push_back({id, payload.finding}); }
  void apply(const std::string& id, const GaugeRegistered& payload) { keep("gauge", id, payload.gauge, out_.job.gauges); }
  void apply(const std::string& id, const SettingMade& payload) { keep("setting", id, payload.setting, out_.job.settings); }
  void apply(const std::string& id, const GaugeFoundOut& payload) { out_.job.found_out.push_back({id, payload.found}); }
  void apply(const std::string& id, const GaugeStudied& payload) { keep_study(out_.job, {id, payload.study}); }
  void apply(const std::string& id, const LimitEntered& payload) { keep("limit", id, payload.limit, out_.job.limits); }
  void apply(const std::string& id, const SheetEntered& payload) {
    entered("sheet", payload.sheet);
    auto& sheets = out_.job.sheets;
    const auto old = std::find_if(sheets.begin(), sheets.end(), [&](const auto& each) { return each.value.sheet == payload.sheet; });
    if (old != sheets.end()) {
      out_.job.earlier_sheets.push_back(std::move(*old));
      sheets.erase(old);
    }
    sheets.push_back({id, payload});
  }
  void apply(const std::string&, const RuleChosen& payload) { out_.job.rule = payload.rule; }

  void apply(const std::string& id, const ReadingTaken& payload) {
    const Reading& reading = payload.reading;
    if (reading.supersedes) supersede(reading);
    reading_index_[id] = out_.job.readings.size();
    out_.job.readings.push_back({id, reading});
  }

  void supersede(const Reading& reading) {
    if (!counts(*reading.supersedes)) return;  // it was set aside already
    auto& readings = out_.job.readings;
    const auto old = reading_index_.find(*reading.supersedes);
    if (old == reading_index_.end()) {
      out_.problems.push_back(Problem{"job.supersedes_unknown", reading.quantity.place, {verbatim("event", *reading.supersedes)}});
      return;
    }
    out_.job.superseded_readings.push_back(readings[old->second]);
    superseded_.insert(old->second);
    reading_index_.erase(old);
  }

  /// All at once at the end: a job may hold thousands of corrections.
  void drop_superseded() {
    auto& readings = out_.job.readings;
    std::size_t kept = 0;
    for (std::size_t i = 0; i < readings.size(); ++i) {
      if (superseded_.contains(i)) continue;
      if (kept != i) readings[kept] = std::move(readings[i]);
      ++kept;
    }
    readings.erase(readings.begin() + static_cast<std::ptrdiff_t>(kept), readings.end());
  }

  /// What was withdrawn leaves its place to whatever is entered anew under its id. False: a withdrawal, which says for itself what it is.
  bool set_aside(const EventEnvelope& event) {
    if (const auto* part = std::get_if<PartEntered>(&event.payload)) entered("part", part->part.id);
    if (const auto* gauge = std::get_if<GaugeRegistered>(&event.payload)) entered("gauge", gauge->gauge.id);
    if (const auto* setting = std::get_if<SettingMade>(&event.payload)) entered("setting", setting->setting.id);
    if (const auto* limit = std::get_if<LimitEntered>(&event.payload)) entered("limit", limit->limit.id);
    if (const auto* sheet = std::get_if<SheetEntered>(&event.payload)) entered("sheet", sheet->sheet);
    if (const auto* taken = std::get_if<ReadingTaken>(&event.payload)) out_.job.superseded_readings.push_back({event.id, taken->reading});
    return !std::holds_alternative<EventWithdrawn>(event.payload);
  }

  void entered(const char* what, const std::string& id) { places_.emplace(std::string(what) + " " + id, places_.size()); }

  template <class T>
  void in_order_of_entry(const char* what, std::vector<Kept<T>>& list) const {
    const auto place = [&](const Kept<T>& each) { return places_.at(std::string(what) + " " + id_of(each.value)); };
    std::stable_sort(list.begin(), list.end(), [&](const auto& a, const auto& b) { return place(a) < place(b); });
  }

  template <class T>
  void keep(const char* what, const std::string& event, const T& value, std::vector<Kept<T>>& list) {
    entered(what, value.id);
    if (!ids_.insert(std::string(what) + " " + value.id).second) {
      add("job.id_taken", {word("what", std::string("job.") + what), verbatim("id", value.id)});
      return;
    }
    list.push_back({event, value});
  }

  void add(std::string code, std::vector<Argument> arguments) {
    out_.problems.push_back({std::move(code), {}, std::move(arguments)});
  }

  Folded out_{};
  std::unordered_map<std::string, const EventEnvelope*> seen_;
  std::unordered_map<std::string, std::size_t> reading_index_;
  std::unordered_set<std::size_t> superseded_;  ///< places in the readings
  std::unordered_set<std::string> ids_;
  std::unordered_set<std::string> withdrawn_;
  std::unordered_map<std::string, std::size_t> places_;  ///< "part bore-1" -> when it was first entered
};

}  // namespace

Folded fold(const std::vector<EventEnvelope>& events) { return Folder().run(events); }

}  // namespace fettle
