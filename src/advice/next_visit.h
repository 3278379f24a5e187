#pragma once

#include <optional>
#include <vector>

#include "advice/stake.h"

namespace fettle {

/// What the readings of an act share with those that are there. same_setting: everything; fresh_setting: the master and its temperature;
/// other_master: nothing but the part, under a master that is as good as a setting ring; rested: as fresh_setting, part and master rested
/// together and their temperatures taken.
enum class VisitSort { same_setting, fresh_setting, other_master, rested };

/// How a visit is made.
struct VisitPlan {
  VisitSort sort;
  std::size_t settings;  ///< fresh ones, one after the other; 1 of same_setting
  std::size_t most;      ///< readings in all
  bool unread_only = false;  ///< counted places of the parts at stake that nobody read, each once
};

/// How long things take, in minutes. Common practice, no source: see docs/NUMBERS, "What to read next".
struct VisitMinutes {
  double reading = 0.3;
  double setting = 3.0;
  double other_master = 8.0;  ///< to fetch and warm it, beside the setting
  double rest = 60.0;         ///< of waiting
};

struct PlaceToRead {
  std::size_t part;  ///< of the draws
  std::size_t cell;
  std::size_t setting;  ///< which of the fresh ones, from 0
  std::size_t times;
};

/// A visit as far as one reading more: what it explains so far.
struct VisitStep {
  std::size_t part;
  std::size_t cell;
  std::size_t setting;
  std::vector<double> explained;  ///< by stake: share of the variance of its margin, 0 to 1
};

/// The readings that tell most about the stakes, one after the other, each that which adds most to what is explained, stakes weighed by
/// `weights`. Places of one part and setting may come again. `own`: what was read on the group (`sizes_of`): a new reading is as good as
/// the last of its place, or else of its part, or of any. Empty if there is nothing to go by. Deterministic. Cost: readings x places x
/// draws. Source: greedy choice by the variance explained (krause2008 3.2: near-optimal for Gaussian laws). Kept by NextVisit.*.
[[nodiscard]] std::vector<VisitStep> plan_visit(const VisitPlan& plan, const GroupDraws& draws, const SizeSet& own, const std::vector<Stake>& stakes,
                                                const std::vector<double>& weights);

/// What a visit of these steps is, its readings put together.
[[nodiscard]] std::vector<PlaceToRead> places_of(const std::vector<VisitStep>& steps, std::size_t count);

/// Work and waiting of `readings` under `plan`.
[[nodiscard]] double minutes_of(const VisitPlan& plan, std::size_t readings, const VisitMinutes& minutes);

/// How far part and master differ, where nobody looked.
[[nodiscard]] bool of_unknown_temperature(const ErrorSource& source);

/// Whose error it is that a stake's doubt hangs on: what knowing all of that sort would explain, 0 to 1.
enum class DoubtOf { master, setting, temperature, reading };
struct DoubtShares {
  double master;
  double setting;
  double temperature;
  double reading;  ///< single readings and what no reading shows: what is left
  [[nodiscard]] DoubtOf largest() const;
};
[[nodiscard]] DoubtShares doubt_shares(const Stake& stake, const GroupDraws& draws);

}  // namespace fettle
