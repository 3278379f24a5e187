#include "app/verdict_rows.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "app/gauge_state.h"
#include "app/limit_origin.h"
#include "app/part_words.h"
#include "app/whole_engine.h"
#include "verdict/answered_by_test.h"

namespace fettle {
namespace {

VerdictWord as_verdict(TakenWord word) {
  switch (word) {
    case TakenWord::within: return VerdictWord::within;
    case TakenWord::beyond: return VerdictWord::beyond;
  }
  return VerdictWord::not_judged;
}

/// A decision on one limit outranks one on the whole part.
std::optional<TakenByPerson> taken_of(const RecordedJob& recorded, const Verdict& verdict) {
  const Kept<VerdictTaken>* found = nullptr;
  for (const auto& each : recorded.job.taken) {
    if (each.value.part != verdict.part) continue;
    if (each.value.limit == verdict.limit) found = &each;
    if (!each.value.limit && found == nullptr) found = &each;
  }
  if (found == nullptr) return std::nullopt;
  TakenByPerson out{&found->value, "", "", as_verdict(found->value.word) != verdict.word};
  if (const auto at = place_in_log(recorded, found->event)) {
    const EventEnvelope& event = recorded.events[*at];
    out.who = event.who;
    out.at = event.made_at.empty() ? recorded.accepted[*at].accepted_at : event.made_at;
  }
  return out;
}

const Limit* limit_named(const Job& job, const std::string& id) {
  const auto found = std::find_if(job.limits.begin(), job.limits.end(), [&](const auto& each) { return each.value.id == id; });
  return found == job.limits.end() ? nullptr : &found->value;
}

}  // namespace

double hope_of(const Verdict& verdict) {
  if (verdict.chance) return verdict.chance->value;
  if (verdict.doubt) return 0.5 * std::erfc(-verdict.doubt->margin_in_u / std::sqrt(2.0));
  return verdict.reading_keeps.value_or(false) ? 1.0 : 0.0;
}

VerdictRows verdict_rows(const RecordedJob& recorded, const JudgedJob& judged) {
  VerdictRows out;
  for (const Verdict& each : judged.judgement.verdicts) {
    const PartOnBench* part = find_part(judged.parts, each.part);
    const Limit* limit = limit_named(judged.job, each.limit);
    if (part == nullptr || limit == nullptr || limit->role != LimitRole::service) continue;
    VerdictRow row{part, &each, limit, taken_of(recorded, each)};
    (each.word == VerdictWord::not_judged ? out.not_judged : out.judged).push_back(std::move(row));
  }
  std::stable_sort(out.judged.begin(), out.judged.end(), [](const VerdictRow& a, const VerdictRow& b) {
    const int bad_a = badness(a.verdict->word);
    const int bad_b = badness(b.verdict->word);
    return bad_a != bad_b ? bad_a > bad_b : hope_of(*a.verdict) < hope_of(*b.verdict);
  });
  for (const PartState& each : judged.judgement.states) {
    const auto speaks = [&](const VerdictRow& row) { return row.part->part.id == each.part; };
    const bool spoken_of = std::any_of(out.judged.begin(), out.judged.end(), speaks) || std::any_of(out.not_judged.begin(), out.not_judged.end(), speaks);
    if (!spoken_of && each.word == StateWord::not_judged) out.without_verdict.push_back(&each);
  }
  return out;
}

namespace {

/// What keeps a part open that no gauge can answer.
const Finding* awaited(const Job& job, const std::string& part) {
  std::vector<const Finding*> all;
  for (const auto& each : job.findings) all.push_back(&each.value);
  for (const Finding* each : all) {
    if (each->part == part && each->weight == FindingWeight::needs_test && !answered_by_test(*each, all)) return each;
  }
  return nullptr;
}

Message spoken(VerdictWord word, const std::vector<const Part*>& parts) {
  return {"spoken." + std::string(verdict_word_name(word)), {list("parts", {parts_message(parts)}), count("n", static_cast<std::int64_t>(parts.size()))}};
}

/// Whether nothing is known of a whole kind, and no test is waited for.
bool untouched_kind(const JudgedJob& judged, const std::string& kind) {
  return std::all_of(judged.judgement.states.begin(), judged.judgement.states.end(), [&](const PartState& state) {
    const PartOnBench* part = find_part(judged.parts, state.part);
    if (part == nullptr || part->part.kind != kind) return true;
    return word_of(state.word) == VerdictWord::not_judged && awaited(judged.job, state.part) == nullptr;
  });
}

}  // namespace

std::vector<Message> spoken_verdict(const JudgedJob& judged) {
  std::vector<std::string> kinds;
  for (const PartOnBench& each : judged.parts) {
    if (std::find(kinds.begin(), kinds.end(), each.part.kind) == kinds.end()) kinds.push_back(each.part.kind);
  }
  std::stable_sort(kinds.begin(), kinds.end(), [](const auto& a, const auto& b) { return catalogue().strip_place(a) < catalogue().strip_place(b); });
  // A sentence that is said aloud does not count up the many groups of a whole engine of which nothing is known.
  constexpr std::int64_t kMostSpoken = 4;
  const auto silent = std::count_if(kinds.begin(), kinds.end(), [&](const std::string& kind) { return untouched_kind(judged, kind); });
  const bool many = silent > kMostSpoken;
  if (many) std::erase_if(kinds, [&](const std::string& kind) { return untouched_kind(judged, kind); });
  std::vector<Message> out;
  std::optional<Message> untouched;
  for (const VerdictWord word : {VerdictWord::within, VerdictWord::beyond, VerdictWord::too_close, VerdictWord::not_judged}) {
    for (const std::string& kind : kinds) {
      std::vector<const Part*> parts;
      std::vector<const Part*> by_thumb;
      for (const PartState& state : judged.judgement.states) {
        const PartOnBench* part = find_part(judged.parts, state.part);
        if (part == nullptr || part->part.kind != kind || word_of(state.word) != word) continue;
        const Finding* waits = word == VerdictWord::not_judged ? awaited(judged.job, state.part) : nullptr;
        if (waits == nullptr) {
          (state.without_thumb ? by_thumb : parts).push_back(&part->part);
        } else {
          out.push_back({"spoken.waits", {part_argument("part", part->part), verbatim("what", waits->what)}});
        }
      }
      if (!by_thumb.empty()) out.push_back(said_by(spoken(word, by_thumb), true));
      if (parts.empty()) continue;
      // A sentence that is said aloud does not count up thirteen parts of which nothing is known.
      const auto of_kind = std::count_if(judged.parts.begin(), judged.parts.end(), [&](const PartOnBench& each) { return each.part.kind == kind; });
      if (word == VerdictWord::not_judged && parts.size() > 1 && static_cast<std::int64_t>(parts.size()) == of_kind) {
        const Message group = group_message(kind);
        untouched = untouched ? Message{"spoken.one_more", {list("before", {*untouched}), list("group", {group})}} : group;
        continue;
      }
      out.push_back(spoken(word, parts));
    }
  }
  if (untouched) out.push_back({"spoken.groups-not-judged", {list("groups", {*untouched})}});
  if (many) out.push_back({"spoken.many-not-judged", {count("n", silent)}});
  if (out.empty()) out.push_back({"spoken.nothing", {}});
  return out;
}

}  // namespace fettle
