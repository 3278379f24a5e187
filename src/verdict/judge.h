#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/kept.h"
#include "base/remembered.h"
#include "catalogue/definition.h"
#include "form/group_estimate.h"
#include "verdict/judge_group.h"
#include "verdict/plain_figure.h"
#include "verdict/verdict.h"

namespace fettle {

/// Groups whose limits have to hold together. Equal if they are the very same.
struct JointQuestion {
  std::vector<std::shared_ptr<const ShapeGroup>> shapes;
  std::vector<std::shared_ptr<const JudgedGroup>> groups;
  bool planned;  ///< over every place of the plan
  Accuracy accuracy;
  bool operator==(const JointQuestion&) const = default;
};

/// Judgements of earlier inputs. Those who share one have the same definitions.
struct JudgeMemory {
  Remembered<GroupToJudge, JudgedGroup> groups;
  Remembered<JointQuestion, Chance> joints;
};

struct JudgeInput {
  const std::vector<PartOnBench>& parts;
  const std::vector<GroupEstimate>& groups;
  const std::vector<Kept<Limit>>& limits;
  const std::vector<Kept<Finding>>& findings;
  const std::vector<Definition>& definitions;
  Rule rule;
  Accuracy accuracy;
  NormalPoints* points = nullptr;  ///< kept from judgement to judgement by those who make many; of the seed of `accuracy`
  std::set<std::string> stand = {};  ///< readings of which a person said that they are no mistake
  JudgeMemory* memory = nullptr;   ///< kept from judgement to judgement of one job; null: nothing is remembered
};

struct Judgement {
  Rule rule;
  Accuracy accuracy;
  std::vector<PartState> states;   ///< in the order of the parts
  std::vector<Verdict> verdicts;   ///< by part, then in the order of the limits
  JointVerdict joint;
  std::vector<std::shared_ptr<const JudgedGroup>> groups = {};  ///< in the order of the estimates, with what each question is
};

/// Judges every part against every limit of its kind. What cannot be judged says why. Parts that went through the shape model are judged
/// by the chance it gives, all others by the doubt of their readings with a guard band (flat prior) and without a chance.
[[nodiscard]] Judgement judge(const JudgeInput& input);

}  // namespace fettle
