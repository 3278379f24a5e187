#pragma once

#include <string>
#include <vector>

#include "store_sqlite/connection.h"

namespace fettle::sqlite {

inline constexpr std::int64_t kSchemaVersion = 3;
/// In the file's header at byte 68: "Fttl".
inline constexpr std::int64_t kApplicationId = 0x4674746c;
/// Holds some fifteen events, so that nearly none needs an overflow page, and each commit writes two or three pages: 16 KiB would double
/// what goes to the disk for one event, 4 KiB would put many events on two pages.
inline constexpr std::int64_t kPageBytes = 8192;

enum class FileSort { empty, ours, foreign };
[[nodiscard]] FileSort sort_of_file(Connection& connection);
[[nodiscard]] std::int64_t version_of(Connection& connection);

/// Write-ahead log and page size of a file that is still empty.
void prepare_empty_file(Connection& writer);
/// Inside a transaction for writing: one step from version `from` to the next.
void upgrade_one(Connection& writer, std::int64_t from);

/// How tables, indices and triggers differ from what this version of the schema has; empty: not at all.
[[nodiscard]] std::string schema_difference(Connection& connection, std::int64_t version);

/// The copy that is made before an upgrade.
[[nodiscard]] std::string copy_before_upgrade(const std::string& path, std::int64_t version);

}  // namespace fettle::sqlite
