#pragma once

#include <memory>
#include <string>

#include "store_sqlite/connection.h"
#include "store_sqlite/sqlite_store.h"

namespace fettle::sqlite {

/// The writer's connection to a store that is ours, whole as far as its schema goes, and of this program's version. Throws StoreError.
[[nodiscard]] std::unique_ptr<Connection> open_writer(const std::string& path, const SqliteOptions& options);

/// As check_sqlite_backup, but what cannot be opened throws StoreError.
[[nodiscard]] Problems problems_of_file(const std::string& path);

}  // namespace fettle::sqlite
