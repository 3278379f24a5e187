#include "app/whole_engine.h"

#include <algorithm>
#include <map>

#include "app/bench.h"
#include "app/limit_origin.h"
#include "app/part_words.h"
#include "app/strip_list.h"
#include "base/day.h"
#include "verdict/answered_by_test.h"

namespace fettle {
namespace {

PartState state_in(const JudgedJob* judged, const std::string& part) {
  const PartState none{part, StateWord::not_judged, {}};
  if (judged == nullptr) return none;
  const auto& states = judged->judgement.states;
  const auto found = std::find_if(states.begin(), states.end(), [&](const PartState& each) { return each.part == part; });
  return found == states.end() ? none : *found;
}

bool condemned(const Job& job, const std::string& part) {
  return std::any_of(job.findings.begin(), job.findings.end(),
                     [&](const auto& each) { return each.value.part == part && each.value.weight == FindingWeight::condemns; });
}

Message part_line(const PartLine& line) {
  const Argument planned = count("planned", static_cast<std::int64_t>(line.progress.planned));
  const Argument in = count("in", static_cast<std::int64_t>(line.progress.in));
  if (line.by_eye) return {"part_line.by_eye", {planned, in}};
  if (line.progress.planned == 0) return {"part_line.of_its_parts", {}};
  if (line.progress.asked_again > 0) return {"part_line.asked_again", {planned, in, count("again", static_cast<std::int64_t>(line.progress.asked_again))}};
  if (line.progress.in == 0) return {"part_line.to_do", {planned}};
  return {line.progress.in == line.progress.planned ? "part_line.read" : "part_line.begun", {planned, in}};
}

std::vector<const Part*> parts_with(const GroupLine& group, VerdictWord word, bool by_thumb) {
  std::vector<const Part*> out;
  for (const PartLine& each : group.parts) {
    if (word_of(each.state) == word && each.by_thumb == by_thumb) out.push_back(each.part);
  }
  return out;
}

/// "bores 1 and 2 beyond"
Message words_on(VerdictWord word, const std::vector<const Part*>& parts) {
  return {"group_words." + std::string(verdict_word_name(word)), {list("parts", {parts_message(parts)}), count("n", static_cast<std::int64_t>(parts.size()))}};
}

/// By word, the worst first; what was judged within last. What rules of thumb decide stands apart.
std::vector<Message> group_words(const GroupLine& group) {
  std::vector<Message> out;
  for (const VerdictWord word : {VerdictWord::beyond, VerdictWord::too_close, VerdictWord::not_judged, VerdictWord::within}) {
    for (const bool by_thumb : {false, true}) {
      const auto parts = parts_with(group, word, by_thumb);
      if (parts.empty()) continue;
      const bool all = parts.size() == group.parts.size() && parts.size() > 1;
      out.push_back(said_by(all ? Message{"group_words.all." + std::string(verdict_word_name(word)), {}} : words_on(word, parts), by_thumb));
    }
  }
  return out;
}

std::optional<std::int64_t> median_pace_seconds(const RecordedJob& recorded, const std::string& who) {
  constexpr std::int64_t kLongestSeconds = 600;
  constexpr std::size_t kLeast = 5;
  std::optional<std::int64_t> last;
  std::vector<std::int64_t> paces;
  for (const EventEnvelope& each : recorded.events) {
    if (!std::holds_alternative<ReadingTaken>(each.payload) || (!who.empty() && each.who != who)) continue;
    const auto at = utc_seconds(each.made_at);
    if (last && at && *at > *last && *at - *last <= kLongestSeconds) paces.push_back(*at - *last);
    last = at;
  }
  if (paces.size() < kLeast) return std::nullopt;
  const auto middle = paces.begin() + static_cast<std::ptrdiff_t>(paces.size() / 2);
  std::nth_element(paces.begin(), middle, paces.end());
  return *middle;
}

class EngineLooker {
 public:
  EngineLooker(const RecordedJob& recorded, const JudgedJob* judged, const Asking& asking) : recorded_(recorded), judged_(judged), asking_(asking) {}

  WholeEngine run() {
    groups();
    for (const GroupLine& each : out_.groups) {
      if (badness(each.word) > badness(out_.word)) out_.word = each.word;
    }
    if (out_.groups.empty()) out_.word = VerdictWord::not_judged;
    minutes();
    worry();
    line();
    read_next();
    return std::move(out_);
  }

 private:
  void groups() {
    const Job& job = recorded_.job;
    for (const auto& kept : job.parts) {
      if (catalogue().kind(kept.value.kind) == nullptr) continue;
      auto group = std::find_if(out_.groups.begin(), out_.groups.end(), [&](const GroupLine& each) { return each.kind == kept.value.kind; });
      if (group == out_.groups.end()) group = out_.groups.insert(group, {kept.value.kind, VerdictWord::within, {}, {}});
      const PartState state = state_in(judged_, kept.value.id);
      PartLine line{&kept.value, progress_of(on_bench(job, kept.value, catalogue()), job, judged_), state.word, state.without_thumb.has_value(),
                    condemned(job, kept.value.id), {}};
      line.line = part_line(line);
      out_.planned += line.by_eye ? line.progress.in : line.progress.planned;
      out_.in += line.progress.in;
      if (badness(word_of(line.state)) > badness(group->word)) group->word = word_of(line.state);
      group->parts.push_back(std::move(line));
    }
    std::stable_sort(out_.groups.begin(), out_.groups.end(), [](const auto& a, const auto& b) { return catalogue().strip_place(a.kind) < catalogue().strip_place(b.kind); });
    for (GroupLine& each : out_.groups) each.words = group_words(each);
  }

  void minutes() {
    constexpr std::int64_t kSecondsPerMinute = 60;
    const auto pace = median_pace_seconds(recorded_, asking_.who);
    const auto left = static_cast<std::int64_t>(out_.planned - out_.in);
    if (pace && left > 0) out_.minutes = std::max<std::int64_t>(1, (*pace * left + kSecondsPerMinute / 2) / kSecondsPerMinute);
  }

  void worry() {
    for (const GroupLine& group : out_.groups) {
      for (const bool by_thumb : {false, true}) {
        const auto beyond = parts_with(group, VerdictWord::beyond, by_thumb);
        if (!beyond.empty()) out_.worry.push_back(said_by({"worry.beyond", {list("parts", {parts_message(beyond)})}}, by_thumb));
      }
    }
    std::vector<const Finding*> findings;
    for (const auto& kept : recorded_.job.findings) findings.push_back(&kept.value);
    for (const auto& kept : recorded_.job.findings) {
      const Part* part = part_of(recorded_.job, kept.value.part);
      if (part == nullptr || kept.value.weight != FindingWeight::needs_test || answered_by_test(kept.value, findings)) continue;
      out_.worry.push_back({"worry.needs_test", {part_argument("part", *part), verbatim("what", kept.value.what)}});
    }
    for (Message& each : untested_for_cracks(recorded_.job)) out_.worry.push_back(std::move(each));
  }

  void line() {
    const std::int64_t planned = static_cast<std::int64_t>(out_.planned);
    const std::int64_t in = static_cast<std::int64_t>(out_.in);
    if (planned == 0) {
      out_.line.push_back({"engine_line.no_parts", {}});
    } else {
      out_.line.push_back({in == planned ? "engine_line.all_in" : "engine_line.in", {count("planned", planned), count("in", in)}});
    }
    std::int64_t again = 0;
    for (const GroupLine& group : out_.groups) {
      for (const PartLine& each : group.parts) again += each.by_eye ? 0 : static_cast<std::int64_t>(each.progress.asked_again);
    }
    if (again > 0) out_.line.push_back({"engine_line.again", {count("n", again)}});
    for (const VerdictWord word : {VerdictWord::beyond, VerdictWord::too_close}) {
      for (const GroupLine& group : out_.groups) {
        for (const bool by_thumb : {false, true}) {
          const auto parts = parts_with(group, word, by_thumb);
          if (!parts.empty()) out_.line.push_back(said_by(words_on(word, parts), by_thumb));
        }
      }
    }
    if (judged_ == nullptr && planned > 0) out_.line.push_back({"engine_line.cannot_judge", {}});
  }

  /// What was begun, then what is asked again, then what was not begun; nothing that the eye has condemned.
  void read_next() {
    for (const MeasuredState state : {MeasuredState::begun, MeasuredState::asked_again, MeasuredState::to_do}) {
      for (const GroupLine& group : out_.groups) {
        for (const PartLine& each : group.parts) {
          if (each.by_eye || each.progress.state != state || each.progress.planned == 0) continue;
          out_.read_next = {each.part, each.progress.next_cell};
          return;
        }
      }
    }
  }

  const RecordedJob& recorded_;
  const JudgedJob* judged_;
  const Asking& asking_;
  WholeEngine out_{0, 0, {}, VerdictWord::within, {}, {}, {}, {}};
};

}  // namespace

int badness(VerdictWord word) {
  switch (word) {
    case VerdictWord::within: return 0;
    case VerdictWord::not_judged: return 1;
    case VerdictWord::too_close: return 2;
    case VerdictWord::beyond: return 3;
  }
  return 0;
}

WholeEngine whole_engine(const RecordedJob& recorded, const JudgedJob* judged, const Asking& asking) {
  return EngineLooker(recorded, judged, asking).run();
}

}  // namespace fettle
