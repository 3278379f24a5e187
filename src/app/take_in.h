#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/recorded_job.h"
#include "job/folder.h"

namespace fettle {

/// What a folder brought into a record.
struct TakenIn {
  std::string job;
  std::int64_t fresh;      ///< events that were new
  std::int64_t there;      ///< that were there already
  std::int64_t withdrawn;  ///< of earlier ones that the folder holds no longer
  std::int64_t aside;      ///< of those that were there: corrected or withdrawn in the record, and not in the folder
};

/// Takes the two files of a folder into the record. Taking it in twice adds nothing. Lines that the folder held when it was last taken in
/// and holds no longer, changed or removed, are corrections: they need a reason (`corrected`), and are then withdrawn, and stay in the log;
/// a line that comes back counts again. Without a reason: record.folder_changed, with how many and which. A line that the
/// record holds a correction of, and the folder no longer: record.corrected_elsewhere. Nothing in common but the id: record.another_job.
/// Problems also: record.no_reason, those of
/// import_folder, of fold, of Store::accept.
[[nodiscard]] Result<TakenIn> take_in(Store& store, const FolderTexts& texts, const std::optional<std::string>& corrected, const Doing& doing);

}  // namespace fettle
