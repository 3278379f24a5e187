#pragma once

#include <cstdint>
#include <vector>

#include "base/progress.h"
#include "store/store.h"

namespace fettle {

/// What was looked at, and every fault that was found.
struct VerifiedRecord {
  std::int64_t jobs;
  std::int64_t events;
  std::int64_t files;
  std::int64_t judgements;
  std::vector<StoreFault> faults;
  bool stopped;  ///< before all was looked at
};

/// Looks at the whole record: the store's own structure, every chain (its first break), every file and judgement against its hash; that every
/// event can be read and every job folds; the rules of the record (job/invariants.h); that attached files are there; that kept judgements
/// name a state of the log that was; that the rows for finding say what the log says. Problems: those of Store::faults, of open_recorded,
/// record.rule_broken, .file_missing, .judgement_of_nothing, .row_missing, .row_differs.
[[nodiscard]] VerifiedRecord verify_record(Store& store, Progress& progress);

}  // namespace fettle
