#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "simulate/guided_scores.h"

namespace fettle {

/// guided.schema.json. `share_wanted`: the price of a minute was sought for that many more readings.
[[nodiscard]] std::string guided_json(std::uint64_t seed, std::optional<double> share_wanted, Costs costs, const std::vector<GuidedScores>& families,
                                      const std::vector<GuidedHand>& hands, bool stopped);

}  // namespace fettle
