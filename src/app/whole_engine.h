#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/round_plan.h"

namespace fettle {

/// One part on the screen of the whole engine.
struct PartLine {
  const Part* part;
  PartProgress progress;
  StateWord state;
  bool by_thumb;  ///< rules of thumb decide the state: without them it would be another
  bool by_eye;    ///< what was seen condemns it: no reading would change that
  Message line;   ///< "4 of 8 read"
};

/// Parts of one kind.
struct GroupLine {
  std::string kind;
  VerdictWord word;             ///< of its worst part
  std::vector<Message> words;   ///< worst first; never empty
  std::vector<PartLine> parts;
};

struct ReadNext {
  const Part* part;
  std::optional<std::size_t> cell;
};

/// An engine on one screen.
struct WholeEngine {
  std::size_t planned;                   ///< places
  std::size_t in;
  std::optional<std::int64_t> minutes;   ///< that are left at this pace; nothing: there is no pace to tell by, or nothing left
  VerdictWord word;                      ///< of its worst part
  std::vector<GroupLine> groups;         ///< in the order a strip-down meets them
  std::vector<Message> line;             ///< the engine in one line, see bench_list.h
  std::vector<Message> worry;            ///< what could end the job
  std::optional<ReadNext> read_next;
};

/// `judged`: null where the job cannot be judged. Pace: the median time between one reading and the next by whoever asks (anybody, where
/// nobody does), breaks of more than ten minutes left out, from five on; of the times at which the readings say they were taken.
[[nodiscard]] WholeEngine whole_engine(const RecordedJob& recorded, const JudgedJob* judged, const Asking& asking);

/// How bad a word is: beyond, too close, not judged, within.
[[nodiscard]] int badness(VerdictWord word);

}  // namespace fettle
