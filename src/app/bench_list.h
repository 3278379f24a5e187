#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/open_jobs.h"
#include "app/whole_engine.h"

namespace fettle {

/// One engine of the record, in one line.
struct EngineOnBench {
  std::string job;
  std::string name;
  std::vector<Message> line;
  VerdictWord word;
};

/// Where the last reading of the whole record was taken; once that part is done, what is to be read next in its engine.
struct GoOn {
  std::string job;
  std::string name;
  std::string part;
  Message where;                  ///< "bore 2 of 4"
  std::optional<Message> next;    ///< nothing: all of the part is read
  std::optional<Message> left;    ///< how long ago; nothing: the clocks do not tell
  std::vector<Message> warning;   ///< why the setting there is stale
};

struct BenchList {
  std::optional<GoOn> go_on;             ///< nothing: nothing was read yet
  std::vector<EngineOnBench> engines;    ///< the last worked on first
};

/// The first page. A job that cannot be opened or judged says so in its line, and keeps none of the others back.
[[nodiscard]] BenchList bench_list(Store& store, OpenJobs& jobs, const Asking& asking);

/// "top, thrust": a place of a layout.
[[nodiscard]] Message cell_message(const Layout& layout, std::size_t cell);
/// "bore 2 of 4"; "crankshaft 1", where there is one.
[[nodiscard]] Message where_message(const Part& part, std::size_t count);

}  // namespace fettle
