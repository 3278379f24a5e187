#pragma once

#include <string>
#include <vector>

#include "form/group_draws.h"
#include "verdict/judge_group.h"

namespace fettle {

/// A decision that is open, and the draws it is taken on.
struct Stake {
  std::string part;            ///< empty: all parts of the group together
  double chance;               ///< that everything is kept, as it is stated now
  std::vector<double> margin;  ///< by draw: how far past what it has to keep (above nothing: it does not), in its own standard deviations, cut off
                               ///< at three; less its mean
  double variance;             ///< mean square of that
};

/// By draw, how far a part lies past a region, in its unit: at most nothing if it lies in it.
[[nodiscard]] std::vector<double> past_region(const Region& region, const std::vector<std::vector<double>>& places, std::size_t count);

/// The parts of a group whose state is too close to call, each with all its service limits that could be weighed together.
[[nodiscard]] std::vector<Stake> open_parts(const JudgedGroup& judged, const std::vector<Limit>& limits, const std::vector<PartState>& states,
                                            const GroupDraws& draws);

/// The parts that are not judged because places of their plan were not read, each with all its service limits over every place of the plan: what
/// the model forecasts of them.
[[nodiscard]] std::vector<Stake> unread_parts(const JudgedGroup& judged, const std::vector<Limit>& limits, const std::vector<PartState>& states,
                                              const GroupDraws& draws);

/// All parts of the group together, over every place of the plan, whose joint chance is `chance`.
[[nodiscard]] Stake whole_group(const JudgedGroup& judged, const std::vector<Limit>& limits, const GroupDraws& draws, double chance);

}  // namespace fettle
