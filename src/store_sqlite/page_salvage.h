#pragma once

#include <functional>
#include <string>
#include <vector>

#include "store/salvaged_events.h"

namespace fettle {

/// Reads a store's file page by page, without the database, for what a broken one still holds. Given are the events that verify by their
/// own hash, out of the file and of the committed frames of the write-ahead log beside it. Missing are gaps in the positions of a job, and
/// positions that only the index of ids still knows; events at a job's end of which no page knows any more cannot be told. Holds all events
/// in memory. Changes nothing. A file that cannot be read gives nothing.
[[nodiscard]] SalvagedEvents salvage_events(const std::string& path);

/// The same for one job, events after `after`.
[[nodiscard]] std::vector<AcceptedEvent> salvage_job(const std::string& path, const std::string& job, std::int64_t after);

}  // namespace fettle
