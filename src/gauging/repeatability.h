#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "gauging/size_set.h"

namespace fettle {

/// Which gauge each setting is of, and who took each reading; nobody where it is not known.
struct ReadWith {
  std::map<std::string, std::string> gauge_of_setting;
  std::map<std::string, std::string> person_of_reading;  ///< by event id
};

/// Gauge and person of one size; nothing where its setting is not known.
using Hand = std::pair<std::string, std::string>;
[[nodiscard]] std::optional<Hand> hand_of(const Size& size, const ReadWith& with);

/// Whether repeated readings of one place show this error: the gauge's own repeatability, the feel of the hand, carrying a size over.
[[nodiscard]] bool shows_in_repeats(const ErrorSource& source);

/// What one size carries of errors that repeats show, and of rounding.
struct OwnSpread {
  double repeats = 0.0;          ///< variances, mm² or the base unit squared
  double rounding = 0.0;
  std::optional<double> counts;  ///< least degrees of freedom among the former
  Dimension dimension = Dimension::length;
};
[[nodiscard]] OwnSpread own_spread(const Size& size, const SizeSet& set);

/// A repeatability in the place of another: all that shows in repeats of one reading, times a factor.
struct PutRepeatability {
  double factor;
  double degrees_of_freedom;
  std::string origin;
  bool added_to_origin;  ///< else in its place
};
/// A reading shares these sources with no other.
void put(const PutRepeatability& what, const Size& size, SizeSet& set);

/// What one person's repeats with one gauge say: readings of one place under one setting, pooled over all places.
struct LearnedRepeatability {
  std::string gauge;
  std::string person;              ///< empty: not known
  std::size_t degrees_of_freedom;  ///< readings less places
  double counts;                   ///< how many repeats the stated figure counts like
  double spread;                   ///< of the repeats alone, rounding taken off; mm, or the base unit
  double stated;
  double learned;
  Dimension dimension;
};

/// Puts what repeats show in the place of the stated repeatability, for all that the same person read with the same gauge:
/// u² = (c u₀² + SS − ν r²/12)/(c + ν), with c + ν degrees of freedom; c = 6, or the degrees of freedom that the stated figure has itself
/// (of a study, of the job); r the division (what rounding adds to the scatter is taken off, never below nothing). Where several errors show
/// in repeats each is scaled alike. Hands without repeats keep their figure. Source: gelman2013 3.3 (scaled inverse chi-squared); six:
/// docs/NUMBERS. Kept by Repeatability.*.
[[nodiscard]] std::vector<LearnedRepeatability> learn_repeatability(SizeSet& set, const ReadWith& with);

}  // namespace fettle
