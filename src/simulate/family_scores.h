#pragma once

#include <optional>
#include <string>
#include <vector>

#include "simulate/score.h"

namespace fettle {

/// How one family fared under one hand.
struct FamilyScores {
  std::string family;
  std::string hand;
  Scores scores;                     ///< of all engines; the flat figure at a threshold tuned on the first family of the run
  std::optional<Scores> with_exact;  ///< of the engines with an exact posterior, losses counted by it
};

/// How far chances can be taken at their word under one hand, over the engines of all families in which a verdict is at stake.
struct HandReliability {
  std::string hand;
  std::optional<Reliability> ours;
  std::optional<Reliability> flat;
  std::optional<FlatByHindsight> flat_by_hindsight;  ///< over the same families
};

/// Whether there is anything to decide: some engines are good and some are not (at least 2 % each).
[[nodiscard]] bool verdict_at_stake(const Scores& scores);

/// What was asked for, as far as it belongs into the record, and what came out.
struct SimulateRecord {
  std::uint64_t seed;
  std::size_t engines;        ///< of each family under each hand
  std::size_t exact_engines;  ///< of these, the first so many with the exact posterior, where the family has one
  double chance_error;
  Costs costs;
  std::vector<FamilyScores> families;  ///< by hand, then family, in the order asked for
  std::vector<HandReliability> hands;  ///< of the hands that were finished
  bool stopped;                        ///< asked to stop: only what was finished is here
};

}  // namespace fettle
