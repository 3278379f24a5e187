#pragma once

#include <cstdint>
#include <vector>

#include "base/progress.h"
#include "simulate/decide.h"
#include "simulate/families_file.h"
#include "simulate/family_scores.h"
#include "verdict/plain_figure.h"

namespace fettle {

/// Which engines are simulated, and how they are judged and scored.
struct SimulateRequest {
  std::vector<EngineFamily> families;
  std::vector<Hand> hands;
  std::size_t engines;        ///< of each family under each hand
  std::size_t exact_engines;  ///< of these, how many of the first get the family's own posterior (where it has one)
  std::uint64_t seed;
  unsigned threads;           ///< results do not depend on it
  Accuracy accuracy;
  Costs costs;
};

/// Simulates, measures and judges engines through the whole chain and scores every rule on them. The same request gives the same result
/// for any number of threads. `progress` hears of engines done; when it says stop, the family in hand is given up.
[[nodiscard]] SimulateRecord simulate_scores(const SimulateRequest& request, Progress& progress);

}  // namespace fettle
