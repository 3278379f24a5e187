#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.h"

namespace fettle {

/// The whole of a file of text, at most 64 MiB. Problems: app.no_file, app.file_too_large; then nothing is given.
[[nodiscard]] std::optional<std::string> read_text_file(const std::string& path, Problems& problems);

/// Writes a file, and the folders it lies in where they are missing. What is there already is not overwritten: app.file_exists. Where the
/// disk fails: app.cannot_write. Empty if it was written.
[[nodiscard]] Problems write_new_text_file(const std::string& path, const std::string& text);

/// Asked before long work whose result goes into `folder`: makes the folder, and says what would keep files or folders of these names from
/// being new there. A name is taken by anything but an empty folder: app.names_taken, once, with how many and the first. The folder cannot
/// be made: app.cannot_write.
[[nodiscard]] Problems prepare_folder(const std::string& folder, const std::vector<std::string>& names);

}  // namespace fettle
