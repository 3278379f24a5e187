#pragma once

#include <string>
#include <vector>

#include "app/judge_job.h"
#include "app/recorded_job.h"

namespace fettle {

/// What a person decided, and whether it is another word than the program's.
struct TakenByPerson {
  const VerdictTaken* taken;
  std::string who;
  std::string at;
  bool overrules;
};

/// One verdict as the page lists it.
struct VerdictRow {
  const PartOnBench* part;
  const Verdict* verdict;
  const Limit* limit;
  std::optional<TakenByPerson> taken;  ///< of this limit, else of the whole part
};

struct VerdictRows {
  std::vector<VerdictRow> judged;      ///< service limits, the worst first: by word, then by the chance or margin that is left
  std::vector<VerdictRow> not_judged;  ///< in the order of the parts
  std::vector<const PartState*> without_verdict;  ///< parts that no service limit speaks of
};

/// Pointers point into `judged` and `recorded`. A limit of new parts condemns no used one and has no row.
[[nodiscard]] VerdictRows verdict_rows(const RecordedJob& recorded, const JudgedJob& judged);

/// "Bores 1 and 2 may go back; bore 3 is beyond": what one could say aloud, by kind in strip-down order; never empty.
[[nodiscard]] std::vector<Message> spoken_verdict(const JudgedJob& judged);

/// Share of a rule's side: chance that the limit is kept, or the margin in standard uncertainties put in its place; for ordering only.
[[nodiscard]] double hope_of(const Verdict& verdict);

}  // namespace fettle
