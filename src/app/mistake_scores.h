#pragma once

#include <cstdint>
#include <vector>

#include "base/progress.h"
#include "simulate/families_file.h"
#include "simulate/mistake_rates.h"

namespace fettle {

/// Which engines get mistakes, and how many of each family under each hand.
struct MistakeScoresRequest {
  std::vector<EngineFamily> families;
  std::vector<Hand> hands;
  std::size_t engines;
  std::uint64_t seed;
  unsigned threads;  ///< results do not depend on it
};

/// Simulates engines, reads them honestly and with one mistake of each kind in turn, and counts what is asked about: of the finished job
/// (mistakes_asked over the judged job), and as the readings arrive (`understand`, reading by reading). The same request gives the same counts
/// for any number of threads. `progress` hears of engines done; when it says stop, the family in hand is given up.
[[nodiscard]] MistakeRecord mistake_scores(const MistakeScoresRequest& request, Progress& progress);

}  // namespace fettle
