#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/kept.h"
#include "catalogue/definition.h"
#include "form/group_estimate.h"
#include "verdict/plain_figure.h"
#include "verdict/verdict.h"

namespace fettle {

struct JudgeInput {
  const std::vector<PartOnBench>& parts;
  const std::vector<GroupEstimate>& groups;
  const std::vector<ErrorSource>& sources;
  const std::vector<Kept<Limit>>& limits;
  const std::vector<Kept<Finding>>& findings;
  const std::vector<Definition>& definitions;
  Rule rule;
  Accuracy accuracy;
  NormalPoints* points = nullptr;  ///< kept from judgement to judgement by those who make many; of the seed of `accuracy`
};

struct Judgement {
  Rule rule;
  Accuracy accuracy;
  std::vector<PartState> states;   ///< in the order of the parts
  std::vector<Verdict> verdicts;   ///< by part, then in the order of the limits
  JointVerdict joint;
};

/// Judges every part against every limit of its kind. What cannot be judged says why. Parts that went through the shape model are judged
/// by the chance it gives, all others by the doubt of their readings with a guard band (flat prior) and without a chance.
[[nodiscard]] Judgement judge(const JudgeInput& input);

}  // namespace fettle
