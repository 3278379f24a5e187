#include "job/folder_text.h"

#include <algorithm>
#include <set>

#include "job/fold.h"
#include "job/job_text.h"
#include "limits/sheet_file.h"

namespace fettle {
namespace {

// The heading is a part of the file, in the one language in which the keys below it are.
const std::vector<std::string> kHeading = {
    "A readable copy, with readings.csv beside it. The event log is the record of this job: this copy leaves out the ids of",
    "events, the devices and the order of entry, who entered what is no reading, and whatever was replaced later on.",
};

std::string name_of(const Part& part) { return part.id; }
std::string name_of(const Gauge& gauge) { return gauge.id; }
std::string name_of(const Setting& setting) { return setting.id; }
std::string name_of(const Limit& limit) { return limit.id; }
std::string name_of(const Finding& finding) { return finding.part; }
std::string name_of(const StripStepAnswered& answered) { return answered.step; }
std::string name_of(const QuestionAnswered& answered) { return answered.part + " " + answered.reading; }
std::string name_of(const PartsReady& ready) { return ready.parts.empty() ? "" : ready.parts.front(); }
std::string name_of(const FoundOut& found) { return found.gauge; }
std::string name_of(const StudiedGauge& study) { return study.gauge; }
std::string name_of(const LayoutChosen& chosen) { return chosen.kind; }
std::string name_of(const Reading& reading) { return reading.part + " " + reading.station + " " + reading.direction; }
std::string name_of(const EngineDescribed& engine) { return engine.name; }
std::string name_of(const JobOpened& opened) { return opened.name; }

/// A reading with what its row holds beside it, and without what no row holds.
struct RowOf {
  Reading reading;
  EnteredBy entered;
};

RowOf row_of(const Kept<Reading>& kept, const EnteredByEvent& entered) {
  const auto found = entered.find(kept.event);
  RowOf out{kept.value, found == entered.end() ? EnteredBy{} : found->second};
  out.reading.supersedes.reset();
  return out;
}

class Comparison {
 public:
  Comparison(const Folded& kept, const EnteredByEvent& kept_entered, const std::vector<EventEnvelope>& read)
      : kept_(kept.job), kept_entered_(kept_entered), read_(fold(read).job), read_entered_(entered_by(read)) {}

  std::vector<Message> differences() {
    one("job", kept_.opened, read_.opened);
    one("engine", kept_.engine, read_.engine);
    each("layout", kept_.layouts, read_.layouts);
    each("part", kept_.parts, read_.parts);
    each("finding", kept_.findings, read_.findings);
    each("strip", kept_.strip_answers, read_.strip_answers);
    each("ready", kept_.ready, read_.ready);
    each("answer", kept_.answers, read_.answers);
    each("gauge", kept_.gauges, read_.gauges);
    each("setting", kept_.settings, read_.settings);
    each("found_out", kept_.found_out, read_.found_out);
    each("study", kept_.studies, read_.studies);
    each("limit", by_themselves(kept_.limits), by_themselves(read_.limits));
    sheets();
    if (kept_.rule != read_.rule) differs("rule", "");
    readings();
    return std::move(out_);
  }

 private:
  void differs(const std::string& what, const std::string& id) {
    out_.push_back({"folder.differs", {word("what", "folder." + what), verbatim("id", id)}});
  }

  template <class T>
  void one(const std::string& what, const std::optional<Kept<T>>& kept, const std::optional<Kept<T>>& read) {
    const bool same = kept && read ? kept->value == read->value : kept.has_value() == read.has_value();
    if (!same) differs(what, kept ? name_of(kept->value) : "");
  }

  template <class T>
  void each(const std::string& what, const std::vector<Kept<T>>& kept, const std::vector<Kept<T>>& read) {
    for (std::size_t i = 0; i < kept.size(); ++i) {
      if (i >= read.size() || kept[i].value != read[i].value) differs(what, name_of(kept[i].value));
    }
  }

  static std::vector<Kept<Limit>> by_themselves(std::vector<Kept<Limit>> limits) {
    std::erase_if(limits, [](const Kept<Limit>& each) { return each.value.origin.sheet.has_value(); });
    return limits;
  }

  /// As a file says them: every figure with its unit, wherever that stood when it was typed.
  void sheets() {
    for (std::size_t i = 0; i < kept_.sheets.size(); ++i) {
      const SheetEntered& kept = kept_.sheets[i].value;
      const bool same = i < read_.sheets.size() && kept.sheet == read_.sheets[i].value.sheet && sheet_file_text(kept.of) == sheet_file_text(read_.sheets[i].value.of);
      if (!same) differs("sheet", kept.sheet);
    }
  }

  /// Rows have no order: both are looked up by what a row of readings.csv would hold.
  void readings() {
    std::set<std::string> found;
    for (const auto& each : read_.readings) found.insert(key(row_of(each, read_entered_)));
    for (const auto& each : kept_.readings) {
      if (!found.contains(key(row_of(each, kept_entered_)))) differs("reading", name_of(each.value));
    }
  }

  static std::string key(const RowOf& row) {
    const Reading& reading = row.reading;
    const auto number = [](const std::optional<std::int64_t>& value) { return value ? std::to_string(*value) : std::string(); };
    const auto typed = [](const TypedQuantity& quantity) {
      const Ratio& value = quantity.quantity.value;
      return quantity.text + '\0' + to_text(value.numerator()) + "/" + to_text(value.denominator()) +
             std::string(unit_definition(quantity.quantity.unit).symbol);
    };
    std::string out;
    for (const std::string& part :
         {reading.part, reading.station, reading.direction, typed(reading.quantity), reading.setting, reading.round, number(reading.order),
          number(reading.repeat), reading.temperature ? typed(*reading.temperature) : std::string(), std::string(flag_name(reading.flag)),
          reading.note, row.entered.who, row.entered.when}) {
      out += std::to_string(part.size()) + ":" + part;
    }
    return out;
  }

  const Job& kept_;
  const EnteredByEvent& kept_entered_;
  Job read_;
  EnteredByEvent read_entered_;
  std::vector<Message> out_;
};

void add_count(std::vector<Message>& out, const char* key, std::size_t number) {
  if (number > 0) out.push_back({key, {count("number", static_cast<std::int64_t>(number))}});
}

bool is_replaceable(const Payload& payload) {
  return std::holds_alternative<JobOpened>(payload) || std::holds_alternative<EngineDescribed>(payload) ||
         std::holds_alternative<LayoutChosen>(payload) || std::holds_alternative<RuleChosen>(payload) || std::holds_alternative<GaugeStudied>(payload);
}

/// What one of them stands in the place of another by.
std::string replaced_by(const Payload& payload) {
  if (const auto* layout = std::get_if<LayoutChosen>(&payload)) return layout->kind;
  if (const auto* studied = std::get_if<GaugeStudied>(&payload)) return studied->study.gauge + "\n" + studied->study.person.value_or("");
  return {};
}

/// Of job, engine, layout, study and rule the last one stands: how many came before it.
std::size_t replaced(const std::vector<EventEnvelope>& events) {
  std::set<std::string> seen;
  std::set<std::string> ids;
  std::size_t out = 0;
  for (const EventEnvelope& event : events) {
    if (!is_replaceable(event.payload) || !ids.insert(event.id).second) continue;
    const std::string what = std::to_string(event.payload.index()) + " " + replaced_by(event.payload);
    if (!seen.insert(what).second) ++out;
  }
  return out;
}

/// How many entries that are no readings say who made them, or when.
std::size_t entered_elsewhere(const std::vector<EventEnvelope>& events) {
  return static_cast<std::size_t>(std::count_if(events.begin(), events.end(), [](const EventEnvelope& event) {
    return !std::holds_alternative<ReadingTaken>(event.payload) && !(event.who.empty() && event.made_at.empty());
  }));
}

/// How many readings were called out to somebody else, who entered them.
std::size_t read_by_another(const Job& job) {
  return static_cast<std::size_t>(
      std::count_if(job.readings.begin(), job.readings.end(), [](const Kept<Reading>& each) { return each.value.read_by.has_value(); }));
}

}  // namespace

FolderTexts folder_texts(const Job& job, const EnteredByEvent& entered, const std::vector<std::string>& heading) {
  FolderTexts out{"", job_text(job, heading), readings_text(job, entered)};
  for (const Kept<SheetEntered>& each : job.sheets) out.sheets.push_back({sheet_file_name(each.value), sheet_file_text(each.value.of)});
  return out;
}

EnteredByEvent entered_by(const std::vector<EventEnvelope>& events) {
  EnteredByEvent out;
  for (const EventEnvelope& event : events) {
    if (!event.who.empty() || !event.made_at.empty()) out[event.id] = {event.who, event.made_at};
  }
  return out;
}

Result<WrittenFolder> written_folder(const std::vector<EventEnvelope>& events) {
  const Folded folded = fold(events);
  if (!folded.problems.empty()) return folded.problems;
  const EnteredByEvent entered = entered_by(events);
  WrittenFolder out{folder_texts(folded.job, entered, kHeading), {}, {}};
  add_count(out.left_out, "folder.left_out_corrected", folded.job.superseded_readings.size());
  add_count(out.left_out, "folder.left_out_earlier", replaced(events));
  add_count(out.left_out, "folder.left_out_sheets", folded.job.earlier_sheets.size());
  add_count(out.left_out, "folder.left_out_entered", entered_elsewhere(events));
  add_count(out.left_out, "folder.left_out_files", folded.job.files.size());
  add_count(out.left_out, "folder.left_out_taken", folded.job.taken.size());
  add_count(out.left_out, "folder.left_out_read_by", read_by_another(folded.job));
  FolderTexts named = out.texts;
  named.path = folded.job.id;
  Imported read = import_folder(named);
  out.refused = std::move(read.problems);
  if (!out.refused.empty()) return out;
  for (Message& each : Comparison(folded, entered, read.events).differences()) out.left_out.push_back(std::move(each));
  return out;
}

}  // namespace fettle
