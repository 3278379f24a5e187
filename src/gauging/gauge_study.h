#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "base/message.h"
#include "base/result.h"
#include "entry/typed_quantity.h"
#include "numeric/variance_analysis.h"

namespace fettle {

/// One reading of a study: nobody tells the person what was read before.
struct StudyReading {
  std::string part;
  std::string person;
  TypedQuantity shows;
};

/// The readings of one gauge on some parts, by some people, several times each.
struct StudyReadings {
  std::string gauge;
  bool on_a_dial;                           ///< deviations read off a dial; else sizes or other quantities
  std::optional<Length> division;           ///< of its dial or thimble
  std::optional<TypedQuantity> tolerance;   ///< of what it is to judge; nothing: no share of it is told
  std::vector<StudyReading> readings;
};

/// Standard deviations in the unit of the study.
struct StudySpreads {
  double repeatability;                 ///< of one reading, with its rounding
  double degrees_of_freedom;            ///< of the repeatability
  std::optional<double> people;         ///< what people differ by
  std::optional<double> interaction;    ///< what people differ by from part to part; nothing where it was not kept
  double gauge;                         ///< all that the gauge and those who read it bring
  std::optional<double> parts;          ///< what the parts differ by
  std::optional<double> total;
  std::optional<double> categories;     ///< √2·parts/gauge, not cut; nothing where the gauge brings nothing
  std::optional<double> of_tolerance;   ///< six times `gauge` over the tolerance
};

/// A range that chance hardly makes.
struct RangeBeyond {
  std::string part;
  std::string person;
  double range;
};

struct StudyByRanges {
  double mean_range;
  double lower_limit;    ///< of a single range, three of its standard deviations below the mean; 0 at least
  double upper_limit;
  std::vector<RangeBeyond> beyond;
  StudySpreads spreads;
};

struct StudyByVariances {
  std::optional<VarianceLine> parts;
  std::optional<VarianceLine> people;
  std::optional<VarianceLine> interaction;
  VarianceLine within;
  std::optional<double> interaction_chance;  ///< of so much or more by chance alone
  bool interaction_kept;
  bool held_at_nothing;                      ///< some variance came out below nothing
  StudySpreads spreads;
};

/// One person by himself.
struct StudyPerson {
  std::string name;
  double off;                 ///< mean of his readings less the mean of all; on a dial + is clockwise
  double repeatability;
  double degrees_of_freedom;
};

struct GaugeStudy {
  std::string gauge;
  UnitId unit;                     ///< of all figures: µm for lengths, else the unit of the first reading
  std::vector<std::string> parts;  ///< in the order of their first reading
  std::vector<StudyPerson> people;
  std::size_t readings;
  std::optional<std::size_t> repeats;  ///< of each part by each person; nothing where they differ
  std::optional<double> division;
  std::optional<double> tolerance;
  std::optional<StudyByRanges> by_ranges;  ///< nothing where the repeats differ, or there are too many for one range
  StudyByVariances by_variances;
  bool on_a_dial;
  bool hidden_by_division;         ///< readings spread less than rounding alone would make them
};

/// Chance below which an interaction of parts and people is kept as such: by more it is pooled with the repeatability.
inline constexpr double kInteractionChance = 0.25;
/// Over more ranges than this their mean is divided by d2, else by d2*: they differ by less than 2 in 100 then.
inline constexpr std::size_t kManyRanges = 15;

/// Both ways of reckoning a study, side by side. Differences of readings are exact before they become doubles.
/// By variances (searle1971 9.5; parts, people and their interaction at random): as below, components below nothing held at nothing.
/// By ranges (tippett1925, patnaik1950): repeatability = mean range/d2*, people = √((range of people's means/d2*)² − repeatability²/(parts·
/// repeats)), parts = range of parts' means/d2*.
/// One person: no people; one part: no parts. Several people: every cell needs as many readings. One person may read some parts oftener; there
/// are no ranges then.
/// Problems, all at once: gauging.study_empty, .study_repeats (nothing was read twice), .study_unbalanced (each cell that differs),
/// .study_no_division, .study_not_a_deviation, .study_not_a_size, .study_mixed (readings of several quantities), .study_tolerance.
/// Kept by GaugeStudy.* and tests/outside/statistics/crossed_study.txt.
[[nodiscard]] Result<GaugeStudy> study_gauge(const StudyReadings& from);

/// Whole figures for which parts can be told apart: categories cut to a whole, 1 at least.
[[nodiscard]] std::size_t whole_categories(double categories);

}  // namespace fettle
