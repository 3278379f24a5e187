#pragma once

#include "gauging/size_set.h"
#include "numeric/mixture_chance.h"
#include "simulate/engine.h"

namespace fettle {

/// The chance that all parts keep all limits of the family, given what was read, under the very law that the family draws its truth from:
/// nobody can know more. The few hyperparameters are integrated over evenly spread points of the part of their cube where the readings
/// put weight, found in three steps; everything else is Gaussian and exact. Rounding counts as Gaussian. `sizes` as the chain made them.
/// Needs a family that is Gaussian given its hyperparameters, else InternalError. Error: that of the integration over a few hundred
/// points, see ExactChance.AgreesWithManyMorePointsInTrials.
[[nodiscard]] double exact_chance(const EngineFamily& family, const SimulatedEngine& engine, const SizeSet& sizes,
                                  std::size_t points_of_each_step = 384);

}  // namespace fettle
