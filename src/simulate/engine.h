#pragma once

#include <cstdint>
#include <string>

#include "job/job.h"
#include "simulate/hand.h"
#include "simulate/truth.h"

namespace fettle {

/// One engine whose truth is known, as a hand read it.
struct SimulatedEngine {
  Job job;  ///< what a person would have typed
  EngineTruth truth;
  std::uint64_t seed;
  std::uint64_t number;
  std::string family;
  std::string hand;
};

/// What the hand read later goes to the rest, as a person would have typed it.
void add_work(SimulatedEngine& engine, HandWork work);

/// Engine `number` of a family under a seed, read by a hand. The truth does not depend on the hand; no engine depends
/// on another. Needs a family and a hand that the readers accepted.
[[nodiscard]] SimulatedEngine simulate_engine(const EngineFamily& family, const Hand& hand, std::uint64_t seed,
                                              std::uint64_t number);

}  // namespace fettle
