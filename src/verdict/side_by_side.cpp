#include "verdict/side_by_side.h"

#include <algorithm>

namespace fettle {
namespace {

/// "tap" of "tap-6".
std::string_view name_of(const std::string& definition) { return std::string_view(definition).substr(0, definition.find('-')); }

const Definition& definition_of(const std::string& id, const JudgeInput& input) {
  return *std::find_if(input.definitions.begin(), input.definitions.end(), [&](const Definition& each) { return each.id == id; });
}

bool may_stand_for(const Definition& other, const Definition& own, const Limit& limit, Feature feature) {
  // The two ends of a size, and what stands for other parts, share a name only.
  if (own.family == Family::size || other.family != own.family) return false;
  return other.id != own.id && other.judged() && name_of(other.id) == name_of(own.id) && other.dimension == own.dimension &&
         other.applies(feature) && other.is_for(limit.kind) && (!other.uses(Input::standard) || limit.standard);
}

/// The limit under each of its relatives; its place in the list tells which.
std::vector<Kept<Limit>> under_relatives(const Kept<Limit>& kept, Feature feature, const JudgeInput& input) {
  std::vector<Kept<Limit>> out = {kept};
  const Definition& own = definition_of(kept.value.definition, input);
  for (const Definition& other : input.definitions) {
    if (!may_stand_for(other, own, kept.value, feature)) continue;
    out.push_back(kept);
    out.back().value.id += " " + other.id;
    out.back().value.definition = other.id;
  }
  return out;
}

bool differ(const std::vector<SideBySide::Under>& under) {
  return std::any_of(under.begin(), under.end(), [&](const auto& each) {
    return each.verdict.reading_keeps != under.front().verdict.reading_keeps || each.verdict.word != under.front().verdict.word;
  });
}

}  // namespace

std::vector<SideBySide> definitions_side_by_side(const JudgeInput& input) {
  std::vector<SideBySide> out;
  for (const Kept<Limit>& kept : input.limits) {
    const auto part = std::find_if(input.parts.begin(), input.parts.end(), [&](const auto& each) { return each.part.kind == kept.value.kind; });
    if (part == input.parts.end()) continue;
    const std::vector<Kept<Limit>> limits = under_relatives(kept, part->feature, input);
    if (limits.size() < 2) continue;
    const Judgement judgement = judge({input.parts, input.groups, limits, input.findings, input.definitions, input.rule, input.accuracy, input.points});
    for (const PartOnBench& each : input.parts) {
      SideBySide beside{each.part.id, kept.value.id, {}, false};
      for (const Verdict& verdict : judgement.verdicts) {
        if (verdict.part != each.part.id || !verdict.as_measured) continue;
        const auto limit = std::find_if(limits.begin(), limits.end(), [&](const auto& one) { return one.value.id == verdict.limit; });
        beside.under.push_back({limit->value.definition, verdict});
      }
      if (beside.under.size() < 2) continue;
      beside.decides = differ(beside.under);
      out.push_back(std::move(beside));
    }
  }
  return out;
}

}  // namespace fettle
