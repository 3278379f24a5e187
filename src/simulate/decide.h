#pragma once

#include <optional>

#include "simulate/engine.h"
#include "simulate/outcome.h"
#include "verdict/judge.h"

namespace fettle {

/// One engine decided by every rule from the judgement that the whole chain made of it. Over few readings our chance is the model's
/// forecast for every place of the plan, as the truth is judged there too. `exact`: the family's own posterior, where it is known.
[[nodiscard]] Outcome decide(const SimulatedEngine& engine, const TruthJudge& truth, const Judgement& judgement,
                             const std::vector<GroupEstimate>& groups, std::optional<double> exact);

}  // namespace fettle
