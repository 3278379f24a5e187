#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/kept.h"
#include "base/problem.h"
#include "gauging/gauge.h"
#include "gauging/repeatability.h"
#include "gauging/studied_gauge.h"

namespace fettle {

/// A study at work in a job.
struct UsedStudy {
  const StudiedGauge* study;
  double studied;     ///< without rounding; mm, or the base unit
  double stated;      ///< what stood there before; 0: nothing
  std::size_t sizes;  ///< how many readings take it
  Dimension dimension;
};

/// Whether a study stands for what this hand reads, and goes before the one that was found so far.
[[nodiscard]] bool goes_before(const StudiedGauge& study, const StudiedGauge* so_far, const Hand& hand);

/// Puts what a study found in the place of the stated repeatability of every reading of its gauge, by its person where it names one; of
/// several the last one of the reader, else the last one that names nobody. u² = max(s² − r²/12, (r/10)²) with the study's degrees of freedom:
/// s holds the rounding, which a reading has as an error of its own; below a tenth of a division nothing is claimed. Problems:
/// gauging.study_unknown_gauge, .study_nothing (a repeatability of nothing or less), .study_no_freedom, .study_other_quantity; such a study is
/// used for nothing. Kept by StudiedRepeatability.*.
[[nodiscard]] std::vector<UsedStudy> use_studies(SizeSet& set, const std::vector<Kept<StudiedGauge>>& studies,
                                                 const std::map<std::string, KnownGauge>& gauges, const ReadWith& with, Problems& problems);

}  // namespace fettle
