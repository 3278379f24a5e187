#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "base/problem.h"

namespace fettle {

// Files that are there whole or not at all: written under another name, waited for until the disk has them, then renamed. What is there
// already is not overwritten: app.file_exists. Where the disk fails: app.cannot_write; nothing is left behind.

/// Problems: app.cannot_read, app.larger_than.
[[nodiscard]] std::optional<std::string> read_whole_file(const std::string& path, std::uint64_t most_bytes, Problems& problems);

[[nodiscard]] Problems write_whole_file(const std::string& path, std::string_view bytes);

/// Problems also: app.no_file.
[[nodiscard]] Problems copy_whole_file(const std::string& from, const std::string& to);

}  // namespace fettle
