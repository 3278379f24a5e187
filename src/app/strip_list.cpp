#include "app/strip_list.h"

#include <algorithm>

#include "app/bench.h"
#include "app/part_words.h"
#include "app/round_plan.h"
#include "catalogue/file_words.h"

namespace fettle {
namespace {

bool names(const std::vector<std::string>& kinds, const std::string& kind) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); }

StripState state_of(StripAnswer answer) {
  switch (answer) {
    case StripAnswer::done: return StripState::done;
    case StripAnswer::not_wanted: return StripState::not_wanted;
    case StripAnswer::cannot: return StripState::cannot;
  }
  return StripState::to_do;
}

const StripStepAnswered* answer_to(const Job& job, const std::string& step) {
  const auto found = std::find_if(job.strip_answers.begin(), job.strip_answers.end(), [&](const auto& each) { return each.value.step == step; });
  return found == job.strip_answers.end() ? nullptr : &found->value;
}

std::vector<const Part*> parts_of(const Job& job, const StripStep& step) {
  std::vector<const Part*> out;
  for (const auto& each : job.parts) {
    if (names(step.kinds, each.value.kind) && catalogue().kind(each.value.kind) != nullptr) out.push_back(&each.value);
  }
  return out;
}

struct Read {
  std::size_t planned = 0;
  std::size_t in = 0;
  std::optional<std::string> next;
};

bool was_read(const Job& job, const Part& part, const std::string& station, const std::string& direction) {
  return std::any_of(job.readings.begin(), job.readings.end(), [&](const auto& each) {
    const Reading& reading = each.value;
    return reading.part == part.id && reading.station == station && (reading.direction == direction || reading.direction.empty()) && reading.flag == ReadingFlag::none;
  });
}

/// Of the stations that can be read at this step.
Read read_of_stations(const Job& job, const Part& part, const std::vector<std::string>& stations) {
  Read out;
  const Layout layout = on_bench(job, part, catalogue()).layout;
  for (const Station& station : layout.stations) {
    if (!names(stations, station.id)) continue;
    for (const Direction& direction : layout.directions) {
      ++out.planned;
      out.in += was_read(job, part, station.id, direction.id) ? std::size_t{1} : std::size_t{0};
    }
  }
  return out;
}

Read read_of(const Job& job, const JudgedJob* judged, const StripStep& step, const std::vector<const Part*>& parts) {
  Read out;
  for (const Part* each : parts) {
    Read part;
    if (step.stations.empty()) {
      const PartProgress progress = progress_of(on_bench(job, *each, catalogue()), job, judged);
      part = {progress.planned, progress.in, {}};
    } else {
      part = read_of_stations(job, *each, step.stations);
    }
    out.planned += part.planned;
    out.in += part.in;
    if (!out.next && part.in < part.planned) out.next = each->id;
  }
  return out;
}

class Lister {
 public:
  Lister(const Job& job, const JudgedJob* judged) : job_(job), judged_(judged) {}

  StripList run() {
    for (const StripStep& each : strip_steps()) {
      std::vector<const Part*> parts = parts_of(job_, each);
      if (each.kinds.empty() || !parts.empty()) out_.lines.push_back(line(each, std::move(parts)));
    }
    for (std::size_t i = 0; i < out_.lines.size(); ++i) {
      const StripState state = out_.lines[i].state;
      const bool open = state == StripState::to_do || state == StripState::begun;
      out_.answered += open ? 0 : 1;
      if (open && !out_.next) out_.next = i;
    }
    groups();
    return std::move(out_);
  }

 private:
  StripLine line(const StripStep& step, std::vector<const Part*> parts) {
    StripLine out{&step, StripState::to_do, {"strip_line.to_do", {}}, std::move(parts), {}, {}};
    const StripStepAnswered* answer = answer_to(job_, step.id);
    const Read read = step.act == StripAct::measure ? read_of(job_, judged_, step, out.parts) : Read{};
    if (answer != nullptr) {
      out.state = state_of(answer->answer);
    } else if (read.planned > 0 && read.in == read.planned) {
      out.state = StripState::read;
    } else if (const StripStep* after = done_already(step.before)) {
      out.state = StripState::lost;
      out.line = {"strip_line.lost", {word("after", "strip_step." + after->id)}};
    } else if (read.in > 0) {
      out.state = StripState::begun;
      out.line = {"strip_line.begun", {count("in", static_cast<std::int64_t>(read.in)), count("planned", static_cast<std::int64_t>(read.planned))}};
    }
    if (out.state != StripState::lost && out.state != StripState::begun) out.line = {"strip_line." + std::string(strip_state_name(out.state)), {}};
    if (answer != nullptr && !answer->note.empty()) out.line = {"strip_line.note", {list("line", {out.line}), verbatim("note", answer->note)}};
    if (out.state == StripState::to_do || out.state == StripState::begun) out.next = read.next;
    if (step.act == StripAct::loosen) out.order = loosening(step);
    return out;
  }

  /// The first of these steps that was done.
  [[nodiscard]] const StripStep* done_already(const std::vector<std::string>& steps) const {
    for (const std::string& id : steps) {
      const StripStepAnswered* answer = answer_to(job_, id);
      if (answer != nullptr && answer->answer == StripAnswer::done) return strip_step(id);
    }
    return nullptr;
  }

  /// Rows that name a kind belong to its step; rows without one to every step of loosening.
  [[nodiscard]] std::vector<Message> loosening(const StripStep& step) const {
    std::vector<Message> out;
    for (const auto& sheet : job_.sheets) {
      for (const SheetRow& row : sheet.value.of.rows) {
        if (row.sequence.empty() || (!row.kind.empty() && !names(step.kinds, row.kind))) continue;
        const auto order = turned_round(row.sequence);
        out.push_back({order ? "strip_loosen.sequence" : "strip_loosen.words",
                       {verbatim("what", row.what), verbatim("order", order.value_or(row.sequence)), verbatim("book", sheet.value.of.book)}});
      }
    }
    if (out.empty()) out.push_back({"strip_loosen.none", {}});
    return out;
  }

  void groups() {
    for (const auto& each : job_.parts) {
      const Part& part = each.value;
      if (!comes_in_steps(part.kind)) continue;
      auto group = std::find_if(out_.groups.begin(), out_.groups.end(), [&](const GroupStep& one) { return one.kind == part.kind; });
      if (group == out_.groups.end()) group = out_.groups.insert(group, {part.kind, {}, part.step, false});
      group->mixed = group->mixed || group->step != part.step;
      group->parts.push_back(&part);
    }
  }

  const Job& job_;
  const JudgedJob* judged_;
  StripList out_{};
};

/// A crack that was looked for in one of the parts by more than the eye.
bool tested(const Job& job, const std::vector<const Part*>& parts) {
  return std::any_of(job.findings.begin(), job.findings.end(), [&](const auto& each) {
    const Finding& finding = each.value;
    const bool of_these = std::any_of(parts.begin(), parts.end(), [&](const Part* part) { return part->id == finding.part; });
    return of_these && finding.sort == FindingSort::crack && finding.outcome.has_value();
  });
}

}  // namespace

std::string_view strip_state_name(StripState state) {
  switch (state) {
    case StripState::to_do: return "to_do";
    case StripState::begun: return "begun";
    case StripState::read: return "read";
    case StripState::done: return "done";
    case StripState::not_wanted: return "not-wanted";
    case StripState::cannot: return "cannot";
    case StripState::lost: return "lost";
  }
  return "";
}

StripList strip_list(const Job& job, const JudgedJob* judged) { return Lister(job, judged).run(); }

std::optional<std::string> turned_round(const std::string& sequence) {
  std::vector<std::string> numbers = {""};
  for (const char c : sequence) {
    if (c >= '0' && c <= '9') {
      numbers.back() += c;
    } else if (c != '-' || numbers.back().empty()) {
      return std::nullopt;
    } else {
      numbers.emplace_back();
    }
  }
  if (numbers.size() < 2 || numbers.back().empty()) return std::nullopt;
  std::reverse(numbers.begin(), numbers.end());
  std::string out = numbers.front();
  for (std::size_t i = 1; i < numbers.size(); ++i) out += "-" + numbers[i];
  return out;
}

std::vector<const Part*> read_without(const Job& job, MeasuredWhen state) {
  std::vector<const Part*> out;
  if (job.ready.empty()) return out;
  for (const auto& each : job.parts) {
    const Kind* kind = catalogue().kind(each.value.kind);
    const bool wanted = kind != nullptr && std::find(kind->conditions.begin(), kind->conditions.end(), state) != kind->conditions.end();
    const bool ticked = std::any_of(job.ready.begin(), job.ready.end(), [&](const auto& ready) { return ready.value.state == state && names(ready.value.parts, each.value.id); });
    const bool read = std::any_of(job.readings.begin(), job.readings.end(), [&](const auto& reading) { return reading.value.part == each.value.id; });
    if (wanted && !ticked && read) out.push_back(&each.value);
  }
  return out;
}

std::vector<Message> read_without_ticks(const Job& job) {
  std::vector<Message> out;
  for (const MeasuredWhen state : {MeasuredWhen::clean, MeasuredWhen::rested}) {
    std::vector<Message> parts = parts_by_kind(read_without(job, state));
    const std::string name(word_of(kMeasuredWhen, state).value_or(""));
    if (!parts.empty()) out.push_back({"read_without", {list("parts", std::move(parts)), word("state", "made_ready." + name)}});
  }
  return out;
}

std::vector<Message> untested_for_cracks(const Job& job) {
  std::vector<Message> out;
  for (const StripStep& step : strip_steps()) {
    if (step.act != StripAct::test) continue;
    const auto parts = parts_of(job, step);
    const StripStepAnswered* answer = answer_to(job, step.id);
    if (parts.empty() || tested(job, parts) || (answer != nullptr && answer->answer == StripAnswer::done)) continue;
    const bool cannot = answer != nullptr && answer->answer == StripAnswer::cannot;
    out.push_back({cannot ? "worry.test_missed" : "worry.not_crack_tested", {word("what", "crack_of." + step.id)}});
  }
  return out;
}

}  // namespace fettle
