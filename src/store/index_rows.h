#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace fettle {

/// What is listed and found by, made by `app` from a job's events and its judgement. Can be dropped and made again at any time.
struct PartRow {
  std::string part;
  std::string kind;
  std::string state;  ///< word id: as-new, serviceable, beyond, too-close, not-judged
  bool operator==(const PartRow&) const = default;
};

struct JobRow {
  std::string job;
  std::string name;
  std::string engine;               ///< type of the engine, as described; may be empty
  std::string serial;               ///< of the engine; may be empty
  std::string first_made_at;        ///< UTC day of the earliest event that says when it was made, 2031-05-04; may be empty
  std::string last_made_at;
  std::vector<std::string> people;  ///< who made events, sorted, each once
  std::int64_t events;              ///< position up to which this row was made
  std::int64_t readings;
  std::string word;                 ///< the engine's word, or empty: not judged yet
  std::vector<PartRow> parts;
  bool operator==(const JobRow&) const = default;
};

/// All that is given must hold; a day that is not known holds for no range, and no part or state has an empty id. Texts match anywhere in the field, upper and lower case alike for the letters A to Z.
struct FindQuery {
  std::optional<std::string> engine;  ///< in the job's id, name, engine or serial
  std::optional<std::string> part;    ///< id of a part or of a kind, whole
  std::optional<std::string> state;   ///< of that part, or of any part
  std::optional<std::string> from;    ///< day: last_made_at is not before it
  std::optional<std::string> until;   ///< day: first_made_at is not after it
  std::optional<std::string> person;  ///< whole name
  std::size_t skip;
  std::size_t most;
};

/// In the order of job ids. `parts` of a row holds only those that were asked for; all where none were.
struct FoundJobs {
  std::vector<JobRow> rows;
  std::int64_t all;  ///< how many fit, also beyond `most`
};

}  // namespace fettle
