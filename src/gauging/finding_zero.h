#pragma once

#include <optional>
#include <string>

#include "gauging/known_setting.h"
#include "gauging/size_set.h"

namespace fettle {

/// What several zeros of one setting say of how well its zero was found.
struct LearnedZero {
  std::size_t zeros;
  std::optional<double> stated_mm;  ///< for one zero; nothing: the gauge's preset states none on such a master
  double learned_mm;                ///< standard uncertainty of the mean of the zeros
  std::size_t degrees_of_freedom;
};

/// Largest less smallest of the zeros that were found, counts; nothing where the zero was found once.
[[nodiscard]] std::optional<Ratio> spread_of_zeros(const KnownSetting& setting);

/// Puts what the zeros show in the place of the stated finding of the zero, for all readings under the setting. Of one zero
/// u² = (6 u₀² + SS − ν r²/12) / (6 + ν), the stated figure counting like six zeros as it does for repeats, ν = zeros − 1, r the
/// division (what rounding adds is taken off, never below nothing); of their mean u/√zeros, with 6 + ν degrees of freedom. Where no figure is
/// stated (a ring) the zeros stand alone: u² = (SS − ν r²/12)/ν, ν degrees of freedom. Nothing where the zero was found once, nothing was read
/// under the setting, or the job says that the zero is found without error. mm. Source: gelman2013 3.3 as for repeats. What all zeros share,
/// faces that are not parallel, does not show in their spread and is divided with the rest. Kept by FindingZero.*.
[[nodiscard]] std::optional<LearnedZero> learn_zero(SizeSet& set, const KnownSetting& setting);

}  // namespace fettle
