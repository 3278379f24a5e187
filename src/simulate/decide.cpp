#include "simulate/decide.h"

#include <algorithm>
#include <cmath>

#include "catalogue/catalogue.h"
#include "form/shape_group.h"
#include "form/shape_misfit.h"

namespace fettle {
namespace {

// Mean range of 2 and 4 normal readings in standard deviations of one: tippett1925.
constexpr double kMeanRangeOfTwo = 1.128;
constexpr double kMeanRangeOfFour = 2.059;

const Limit& limit_of(const SimulatedEngine& engine, const Verdict& verdict) {
  return std::find_if(engine.job.limits.begin(), engine.job.limits.end(), [&](const auto& each) {
           return each.value.id == verdict.limit;
         })->value;
}

/// What a range is expected to be too large by when every place is the same and only readings scatter; nothing for a size.
double bias_of_range(const Verdict& verdict, const Limit& limit) {
  const auto& known = catalogue().definitions;
  const auto definition = std::find_if(known.begin(), known.end(), [&](const auto& each) { return each.id == limit.definition; });
  if (definition->family == Family::size) return 0.0;
  // The doubt is that of a difference of two readings.
  const double one_reading = verdict.doubt->standard_uncertainty / std::sqrt(2.0);
  return (definition->id == "oor-2" ? kMeanRangeOfFour : kMeanRangeOfTwo) * one_reading;
}

bool looks_strange(const std::vector<GroupEstimate>& groups) {
  return std::any_of(groups.begin(), groups.end(), [](const GroupEstimate& group) {
    return !group.said.empty() || (group.shape && (!group.shape->suspects.empty() || group.shape->misfit_tail < kMisfitGroupTail));
  });
}

}  // namespace

Outcome decide(const SimulatedEngine& engine, const TruthJudge& truth, const Judgement& judgement,
               const std::vector<GroupEstimate>& groups, std::optional<double> exact) {
  Outcome out{truth.keeps(engine.truth), {}, {}, exact, true, true, true, true, engine.job.readings.size(), looks_strange(groups)};
  if (judgement.joint.chance) out.ours = judgement.joint.chance->value;
  if (judgement.joint.forecast) out.ours = judgement.joint.forecast->value;
  if (judgement.joint.plain) out.flat = judgement.joint.plain->value;
  for (const Verdict& verdict : judgement.verdicts) {
    const Limit& limit = limit_of(engine, verdict);
    if (limit.role != LimitRole::service || !verdict.as_measured || !verdict.doubt) continue;
    const bool at_most = limit.side == LimitSide::at_most;
    const auto order = at_most ? *verdict.as_measured <=> verdict.bound : verdict.bound <=> *verdict.as_measured;
    out.notebook_equal_passes = out.notebook_equal_passes && order <= 0;
    out.notebook_equal_fails = out.notebook_equal_fails && order < 0;
    const double counts = static_cast<double>(Length::kCountsPerMillimetre);
    const double room_mm = (at_most ? 1.0 : -1.0) * (verdict.bound - *verdict.as_measured).to_double() / counts;
    out.guarded_passes = out.guarded_passes && room_mm >= verdict.doubt->standard_uncertainty;
    out.bias_corrected_passes = out.bias_corrected_passes && room_mm + bias_of_range(verdict, limit) >= 0.0;
  }
  // A group that the model gave up states no chance, whatever the others say.
  const bool all_by_shape = std::all_of(groups.begin(), groups.end(), [](const auto& each) { return each.shape != nullptr; });
  if (!all_by_shape) out.ours.reset();
  return out;
}

}  // namespace fettle
