#pragma once

#include <cstddef>

#include "base/progress.h"
#include "store/store.h"
#include "wire/record_json.h"

namespace fettle {

struct JudgeAllOptions {
  std::size_t threads;  ///< at least 1; the result does not depend on it
  bool again;           ///< also jobs that this version has judged as they stand
};

/// Judges all stored jobs by this version of the program, and compares with what earlier versions made of the same events. Every job is kept
/// as soon as it is judged. Starts threads; tells `progress` from the thread that called.
[[nodiscard]] JudgedAll judge_all(Store& store, const JudgeAllOptions& options, Progress& progress);

}  // namespace fettle
