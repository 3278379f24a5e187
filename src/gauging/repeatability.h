#pragma once

#include <map>
#include <string>
#include <vector>

#include "gauging/size_set.h"

namespace fettle {

/// What a gauge's repeats say of its repeatability: readings of one place under one setting, pooled over all places.
struct LearnedRepeatability {
  std::string gauge;
  std::size_t degrees_of_freedom;  ///< readings less places
  double stated_mm;
  double learned_mm;
};

/// Puts what repeats show in the place of the stated repeatability: u² = (6 u₀² + SS − ν r²/12) / (6 + ν), the stated figure counting like
/// six repeats, r the division (what rounding adds to the scatter is taken off, never below nothing). `gauge_of_setting`: setting id to gauge
/// id. Gauges without repeats keep their figure. Source: gelman2013 3.3 (scaled inverse chi-squared); six: docs/NUMBERS. Kept by
/// Repeatability.*.
[[nodiscard]] std::vector<LearnedRepeatability> learn_repeatability(SizeSet& set,
                                                                    const std::map<std::string, std::string>& gauge_of_setting);

}  // namespace fettle
