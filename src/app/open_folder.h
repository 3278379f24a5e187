#pragma once

#include <string>

#include "base/result.h"
#include "job/folder.h"
#include "job/job.h"

namespace fettle {

/// Reads job.toml and readings.csv of a folder. Files that cannot be read, or are over 64 MiB, are problems (app.no_folder,
/// app.no_file, app.file_too_large).
[[nodiscard]] Result<FolderTexts> read_folder(const std::string& path);

/// Reads, imports and folds: the job of a folder, or every problem of its two files.
[[nodiscard]] Result<Job> open_folder(const std::string& path);

}  // namespace fettle
