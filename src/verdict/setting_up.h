#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gauging/needle_proof.h"
#include "gauging/sizes.h"
#include "limits/limit.h"
#include "verdict/rule.h"

namespace fettle {

/// Where a limit pointer of the dial goes.
struct LimitPointer {
  std::string limit;
  std::string definition;
  LimitRole role;
  LimitSide side;
  bool rule_of_thumb;                  ///< it is none of a book's
  Ratio bound;                         ///< counts, at the step of the part
  NeedlePlace at_limit;                ///< exact, between two lines as a rule
  std::optional<NeedlePlace> guarded;  ///< a whole number of divisions, on the good side by the guard or more; nothing: no doubt counts
  bool in_travel;                      ///< the needle really gets there
};

/// How sure one reading under the setting is.
struct ReadingDoubt {
  double standard_uncertainty_mm;
  std::optional<double> degrees_of_freedom;
  double guard_mm;  ///< what the rule's level asks for
};

/// Everything that a person has to know to set a bore gauge.
struct SettingUp {
  std::string gauge;
  std::string master;
  std::string kind;
  std::optional<std::string> part;
  Length wanted;
  std::optional<Assembled> assembled;   ///< nothing: the gauge's kit is not known
  std::optional<ThimbleChoice> thimble; ///< nothing: a ring or blocks
  std::optional<ThimblePlace> locked;   ///< where it was really locked, where that was said; all below is reckoned from it
  Length really_set;                    ///< the master's size
  std::optional<Ratio> tolerance;       ///< of new parts, counts
  Length division;
  std::optional<Length> turn;
  std::optional<NeedleSide> pressed_in; ///< nothing: nobody said; there is then no proof and no pointer
  std::optional<NeedleProof> proof;
  bool step_known;                      ///< if not, no limit is known to be the right one
  Rule rule;
  std::optional<ReadingDoubt> doubt;    ///< under `pressed_in` only
  std::vector<LimitPointer> pointers;   ///< in the order of the limits
};

struct PointerLimit {
  const Limit& limit;
  Ratio bound;  ///< counts, moved by the step
};

struct SettingUpInput {
  const Gauge& gauge;
  const Gauge& master;
  PartOnBench part;                    ///< the part, or one that stands for its kind
  std::optional<std::string> part_id;  ///< nothing: for the kind
  Length wanted;
  std::optional<Ratio> tolerance;
  bool step_known;
  std::vector<PointerLimit> limits;
  Rule rule;
  UnitId shown;                        ///< of lengths in problems
  const std::vector<GaugePreset>& presets;
  ErrorComponent temperature;
  Ratio gauge_expansion_per_celsius;
  std::optional<Length> set = {};      ///< what a micrometer was really set to; nothing: to the nearest line
};

/// How to set a gauge: rod and washers, what the master is set to, the proof of the needle, the limit pointers. The guard is that of one
/// reading under the setting, from the sources that sizes_from gives it and the quantile that the plain verdict takes (jcgm106 8.3);
/// repeats that were read under other settings do not enter. Problems: those of know_gauge, assemble and sizes_from;
/// verdict.master_out_of_travel (a ring in which the contact is not pressed in, or too far). Kept by SettingUp.*.
[[nodiscard]] Result<SettingUp> set_up(const SettingUpInput& input);

}  // namespace fettle
