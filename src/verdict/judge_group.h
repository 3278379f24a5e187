#pragma once

#include <memory>
#include <set>
#include <string>
#include <vector>

#include "catalogue/definition.h"
#include "form/group_on_bench.h"
#include "form/shape_rows.h"
#include "limits/limit.h"
#include "numeric/mixture_chance.h"
#include "verdict/plain_figure.h"
#include "verdict/rule.h"
#include "verdict/verdict.h"

namespace fettle {

/// Everything that the judgement of one group depends on, beside the catalogue's definitions.
struct GroupToJudge {
  GroupOnBench group;
  std::shared_ptr<const ShapeGroup> shape;  ///< nothing: plainly. Equal if it is the very same
  std::vector<Limit> limits;                ///< of the parts' kinds, in the order of the job
  Rule rule;
  Accuracy accuracy;
  std::set<std::string> stand = {};         ///< readings of which a person said that they are no mistake
  bool operator==(const GroupToJudge&) const = default;
};

/// Where a characteristic that could be weighed keeps its bound.
struct WeighedQuestion {
  std::size_t verdict;  ///< of JudgedGroup::verdicts
  std::size_t part;     ///< of the group
  Region region;        ///< over µm from `JudgedGroup::origin`
};

struct JudgedGroup {
  std::vector<Verdict> verdicts;                      ///< by part, then in the order of the limits
  ShapeOrigin origin;                                 ///< the shape's; of a plain group 0, positive outward
  std::vector<WeighedQuestion> questions;             ///< all but those reckoned by formulas
  std::vector<WeighedQuestion> planned;               ///< of what was not read whole: over every place of the plan
  std::vector<std::vector<Region>> regions;           ///< by block of the shape: its service limits that were weighed
  std::vector<std::vector<Region>> planned_regions;   ///< the same over every place of the plan
  bool forecasts;                                     ///< something was not read whole
  bool plainly;                                       ///< something was judged by its readings alone
  std::vector<bool> kept;                             ///< of each plain draw: every service limit; empty: none was weighed
};

/// Judges every part of a group against every limit of its kind. Of the same input the same result, whatever else is in the job.
/// `points`: see JudgeInput.
[[nodiscard]] JudgedGroup judge_group(const GroupToJudge& from, const std::vector<Definition>& definitions, NormalPoints& points);

}  // namespace fettle
