#pragma once

#include <cstdint>
#include <vector>

#include "base/result.h"
#include "store/salvaged_events.h"
#include "store/store.h"

namespace fettle {

struct SalvagedRecord {
  std::int64_t jobs;
  std::int64_t taken_over;            ///< events that hang together from the first one on: as they were accepted
  std::int64_t accepted_anew;         ///< events behind a gap: the same bytes, at new positions
  std::vector<MissingEvents> missing;
  std::int64_t files;                 ///< photos and papers
  std::int64_t files_missing;         ///< that events name and the damaged record no longer gives
};

/// Puts what is left of a damaged record into a new one. `damaged`: the same record opened, for its files; null where it cannot be opened.
/// Problems: those of Store::take_over and Store::accept.
[[nodiscard]] Result<SalvagedRecord> salvage_record(const SalvagedEvents& salvaged, Store* damaged, Store& into);

}  // namespace fettle
