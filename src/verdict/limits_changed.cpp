#include "verdict/limits_changed.h"

#include <algorithm>

namespace fettle {
namespace {

const Limit* limit_in(const std::vector<Kept<Limit>>& limits, const std::string& id) {
  const auto found = std::find_if(limits.begin(), limits.end(), [&](const auto& each) { return each.value.id == id; });
  return found == limits.end() ? nullptr : &found->value;
}

const Verdict* verdict_in(const Judgement& judgement, const Verdict& like) {
  const auto found = std::find_if(judgement.verdicts.begin(), judgement.verdicts.end(), [&](const Verdict& each) { return each.part == like.part && each.limit == like.limit; });
  return found == judgement.verdicts.end() ? nullptr : &*found;
}

template <class T>
std::optional<T> copied(const T* value) {
  return value == nullptr ? std::nullopt : std::optional(*value);
}

template <class T>
auto value_of(const std::optional<T>& figure) {
  return figure ? std::optional(figure->value) : std::nullopt;
}

bool same_doubt(const std::optional<Doubt>& a, const std::optional<Doubt>& b) {
  if (!a || !b) return a.has_value() == b.has_value();
  return a->estimate == b->estimate && a->standard_uncertainty == b->standard_uncertainty && a->margin_in_u == b->margin_in_u && a->guard_in_u == b->guard_in_u;
}

bool same_best(const std::optional<BestEstimate>& a, const std::optional<BestEstimate>& b) {
  if (!a || !b) return a.has_value() == b.has_value();
  return a->median == b->median && a->low == b->low && a->high == b->high;
}

bool same(const Verdict& a, const Verdict& b) {
  return a.word == b.word && a.bound == b.bound && a.as_measured == b.as_measured && a.reading_keeps == b.reading_keeps && value_of(a.chance) == value_of(b.chance) &&
         value_of(a.forecast) == value_of(b.forecast) && value_of(a.plain) == value_of(b.plain) && same_doubt(a.doubt, b.doubt) && same_best(a.best, b.best) &&
         a.remarks == b.remarks && a.reasons == b.reasons;
}

}  // namespace

LimitsChanged limits_changed(const LimitsWithJudgement& before, const LimitsWithJudgement& now) {
  LimitsChanged out{{}, {}, {}, before.judgement.joint.word, now.judgement.joint.word};
  for (const auto& each : before.limits) {
    const Limit* other = limit_in(now.limits, each.value.id);
    if (other == nullptr || *other != each.value) out.limits.push_back({each.value, copied(other)});
  }
  for (const auto& each : now.limits) {
    if (limit_in(before.limits, each.value.id) == nullptr) out.limits.push_back({std::nullopt, each.value});
  }
  for (const Verdict& each : before.judgement.verdicts) {
    const Verdict* other = verdict_in(now.judgement, each);
    if (other == nullptr || !same(each, *other)) out.verdicts.push_back({each.part, each.limit, each, copied(other), limit_in(before.limits, each.limit)->role});
  }
  for (const Verdict& each : now.judgement.verdicts) {
    if (verdict_in(before.judgement, each) == nullptr) out.verdicts.push_back({each.part, each.limit, std::nullopt, each, limit_in(now.limits, each.limit)->role});
  }
  std::stable_sort(out.verdicts.begin(), out.verdicts.end(), [](const auto& a, const auto& b) { return a.other_word() && !b.other_word(); });
  for (const PartState& each : before.judgement.states) {
    const auto& states = now.judgement.states;
    const auto other = std::find_if(states.begin(), states.end(), [&](const PartState& one) { return one.part == each.part; });
    if (other != states.end() && other->word != each.word) out.states.push_back({each.part, each.word, other->word});
  }
  return out;
}

}  // namespace fettle
