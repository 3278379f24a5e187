#include "app/correct.h"

#include <algorithm>

#include "app/reason.h"

namespace fettle {
namespace {

constexpr std::size_t kLeastDigits = 4;

Result<const EventEnvelope*> find_event(const RecordedJob& recorded, const std::string& begin) {
  std::vector<const EventEnvelope*> found;
  for (const EventEnvelope& each : recorded.events) {
    if (begin.size() >= kLeastDigits && each.id.starts_with(begin)) found.push_back(&each);
  }
  const std::vector<Argument> named = {verbatim("event", begin), verbatim("job", recorded.job.id)};
  if (found.empty()) return Problem{"record.no_such_event", {}, named};
  if (found.size() > 1) return Problem{"record.which_event", {}, named};
  return found.front();
}

/// As its column in readings.csv would be understood: without a unit of its own, in the unit of what it puts right.
TypingContext context_of(const Job& job, const Reading& reading) {
  const UnitId unit = reading.quantity.quantity.unit;
  const bool on_a_dial = unit == UnitId::division || reading.quantity.side.has_value();
  TypingContext out{unit, on_a_dial ? std::nullopt : std::optional(unit_definition(unit).dimension), std::nullopt, std::nullopt, on_a_dial, std::nullopt};
  if (job.opened) {
    out.decimal_mark = job.opened->value.decimal_mark;
    out.trade_words = job.opened->value.trade_words;
  }
  const auto setting = std::find_if(job.settings.begin(), job.settings.end(), [&](const auto& each) { return each.value.id == reading.setting; });
  if (setting != job.settings.end()) out.plus_means = setting->value.plus_means;
  return out;
}

Result<std::string> append_one(Store& store, const RecordedJob& recorded, Payload payload, const Doing& doing) {
  const Result<std::vector<std::string>> made = append(store, recorded, {std::move(payload)}, doing);
  if (!made.ok()) return made.problems();
  return made.value().front();
}

}  // namespace

Result<std::string> correct_reading(Store& store, const RecordedJob& recorded, const Correction& correction, const std::string& text,
                                    const Doing& doing) {
  const Result<const EventEnvelope*> event = find_event(recorded, correction.event);
  if (!event.ok()) return event.problems();
  const std::string& id = event.value()->id;
  const auto& readings = recorded.job.readings;
  const auto old = std::find_if(readings.begin(), readings.end(), [&](const auto& each) { return each.event == id; });
  if (old == readings.end()) return Problem{"record.no_reading", {}, {verbatim("event", id), verbatim("job", recorded.job.id)}};
  Problems problems = problems_of_reason(correction.why);
  auto typed = take(read_quantity(text, context_of(recorded.job, old->value), {}), problems);
  if (typed && typed->text == old->value.quantity.text) problems.push_back({"record.same_text", {}, {verbatim("text", typed->text), verbatim("event", id)}});
  if (!problems.empty()) return problems;
  Reading corrected = old->value;
  corrected.quantity = std::move(*typed);
  corrected.why = correction.why;
  corrected.supersedes = id;
  return append_one(store, recorded, ReadingTaken{std::move(corrected)}, doing);
}

Result<std::string> withdraw(Store& store, const RecordedJob& recorded, const Correction& correction, const Doing& doing) {
  const Result<const EventEnvelope*> event = find_event(recorded, correction.event);
  if (!event.ok()) return event.problems();
  if (Problems problems = problems_of_reason(correction.why); !problems.empty()) return problems;
  const std::string& id = event.value()->id;
  const auto& withdrawn = recorded.job.withdrawn;
  if (std::any_of(withdrawn.begin(), withdrawn.end(), [&](const auto& each) { return each.value.event == id; })) {
    return Problem{"record.withdrawn_already", {}, {verbatim("event", id), verbatim("job", recorded.job.id)}};
  }
  return append_one(store, recorded, EventWithdrawn{id, correction.why}, doing);
}

}  // namespace fettle
