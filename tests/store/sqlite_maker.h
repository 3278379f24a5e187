#pragma once

#include <memory>
#include <string>

#include "store/failing_disk.h"
#include "store_sqlite/sqlite_store.h"

namespace fettle {

/// Stores of these tests lie on it from the beginning.
inline FailingDisk& kDiskOfTests = the_disk();

[[nodiscard]] inline std::string sqlite_file(const std::string& folder) { return folder + "/jobs.fettle"; }

[[nodiscard]] inline std::unique_ptr<Store> open_sqlite(const std::string& path, Clock& acceptance_clock) {
  return open_sqlite_store(path, acceptance_clock, usual_sqlite_options()).value();
}

}  // namespace fettle
