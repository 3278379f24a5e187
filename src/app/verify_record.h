#pragma once

#include "base/progress.h"
#include "store/verified_record.h"

namespace fettle {

/// Looks at the whole record: the store's own structure, every chain (its first break), every file and judgement against its hash; that every
/// event can be read and every job folds; the rules of the record (job/invariants.h); that attached files are there; that kept judgements
/// name a state of the log that was; that the rows for finding say what the log says. Problems: those of Store::faults, of open_recorded,
/// record.rule_broken, .file_missing, .judgement_of_nothing, .row_missing, .row_differs.
[[nodiscard]] VerifiedRecord verify_record(Store& store, Progress& progress);

}  // namespace fettle
