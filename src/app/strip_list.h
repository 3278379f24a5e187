#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/judge_job.h"
#include "app/recorded_job.h"
#include "catalogue/kind.h"
#include "catalogue/strip_steps.h"

namespace fettle {

/// How far a step of taking apart is. lost: it was not answered before the step that makes it impossible was done.
enum class StripState { to_do, begun, read, done, not_wanted, cannot, lost };

[[nodiscard]] std::string_view strip_state_name(StripState state);

struct StripLine {
  const StripStep* step;
  StripState state;
  Message line;                        ///< how far, in words
  std::vector<const Part*> parts;      ///< that it is about, in the order of the job; of a step for every engine none
  std::optional<std::string> next;     ///< of a measuring step: the part whose turn it is
  std::vector<Message> order;          ///< of nuts that are loosened: in which order
};

/// At which step a group stands. `mixed`: its parts differ.
struct GroupStep {
  std::string kind;
  std::vector<const Part*> parts;
  Step step;
  bool mixed;
};

/// Taking an engine apart, built from what it is made of.
struct StripList {
  std::vector<StripLine> lines;
  std::optional<std::size_t> next;     ///< the first that is to do or begun; nothing: all are answered
  std::size_t answered;
  std::vector<GroupStep> groups;       ///< of sizes that come in steps: bores, journals, shells, pistons
};

/// A measuring step is read once every place of its parts is; any other is what was answered last. Loosening orders come from the sheets of the
/// job: the sequence of tightening turned round.
[[nodiscard]] StripList strip_list(const Job& job, const JudgedJob* judged);

/// "5-3-1-2-4-6" -> "6-4-2-1-3-5"; nothing where the sequence is no row of numbers.
[[nodiscard]] std::optional<std::string> turned_round(const std::string& sequence);

/// Of an engine whose parts are ticked off at all: parts that were read although nobody ticked them in a state that their kind is to be measured
/// in. Nothing where no tick was ever made.
[[nodiscard]] std::vector<const Part*> read_without(const Job& job, MeasuredWhen state);

/// "Read without a tick for clean and dry: bores 2 and 3", one for each state of it.
[[nodiscard]] std::vector<Message> read_without_ticks(const Job& job);

/// Kinds that nobody has tested for cracks, for the line of what could end the job.
[[nodiscard]] std::vector<Message> untested_for_cracks(const Job& job);

}  // namespace fettle
