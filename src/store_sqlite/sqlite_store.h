#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>

#include "base/clock.h"
#include "store/store.h"

namespace fettle {

struct SqliteOptions {
  bool create;                            ///< make the file if it is not there
  std::chrono::milliseconds busy_wait;    ///< how long to wait for another program that holds the file
  std::optional<std::int64_t> most_pages; ///< of 8 KiB; then the disk counts as full. For tests; nothing: as many as the disk holds
};
/// Creates; waits five seconds.
[[nodiscard]] SqliteOptions usual_sqlite_options();

/// Opens the store in `path`; upgrades an older one, after a copy named <path>.before-version-<n> was made. The clock must outlive the
/// store and is asked by one thread at a time. Problems: store.no_store, store.no_folder, store.foreign_file, store.newer_version,
/// store.read_only, store.taken, store.cannot_open, store.cannot_write, store.cannot_read, store.disk_full, store.database_damaged (then
/// salvage_events of page_salvage.h may give what is left).
[[nodiscard]] Result<std::unique_ptr<Store>> open_sqlite_store(const std::string& path, Clock& acceptance_clock, const SqliteOptions& options);

/// Looks at a backup before it is put in the place of a store: every fault that Store::faults would find, and whether it is a store of
/// this program at all. Changes nothing; an older version stays as it is. Empty: it may be put in place.
[[nodiscard]] Problems check_sqlite_backup(const std::string& path);

}  // namespace fettle
