#pragma once

#include <string>

#include "app/record_keeper.h"

namespace fettle {

/// Looks at a backup and puts a copy of it where there is no record yet: written under another name, waited for, then renamed. Problems:
/// those of RecordKeeper::check_backup, app.file_exists, app.no_file, app.cannot_write.
[[nodiscard]] Problems restore_record(const RecordKeeper& keeper, const std::string& backup, const std::string& path);

}  // namespace fettle
