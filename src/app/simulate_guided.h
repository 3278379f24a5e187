#pragma once

#include <vector>

#include "app/simulate_scores.h"
#include "simulate/guided_scores.h"

namespace fettle {

/// How one engine fares when the model says what to read next, and a notebook beside it. Visits go on while one saves more than `lowest_price`
/// of the costs in a minute, up to six; so does the notebook, which reads again what decides nearest to its limits. Deterministic.
[[nodiscard]] GuidedOutcome guide_engine(const EngineFamily& family, const Hand& hand, std::uint64_t seed, std::uint64_t number,
                                         const Accuracy& accuracy, Costs costs, double lowest_price, NormalPoints& points);

struct GuidedRecord {
  std::uint64_t seed;
  std::size_t engines;
  Costs costs;
  std::optional<double> share_wanted;  ///< the price was sought for that many more readings; nothing: it was given
  std::vector<GuidedScores> families;  ///< by hand, then family
  std::vector<GuidedHand> hands;
  bool stopped;
};

/// Guides engines of every family under every hand. `price`: of a minute, in the currency of the costs; nothing: the lowest at which the mean
/// over the families of more readings is a quarter of the first round, sought for each hand. The result does not depend on the threads.
[[nodiscard]] GuidedRecord simulate_guided(const SimulateRequest& request, std::optional<double> price, Progress& progress);

}  // namespace fettle
