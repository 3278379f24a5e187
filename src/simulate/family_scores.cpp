#include "simulate/family_scores.h"

namespace fettle {

bool verdict_at_stake(const Scores& scores) {
  constexpr std::size_t kOneIn = 50;
  return scores.good * kOneIn >= scores.engines && (scores.engines - scores.good) * kOneIn >= scores.engines;
}

}  // namespace fettle
