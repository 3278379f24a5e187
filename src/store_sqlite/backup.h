#pragma once

#include <string>
#include <vector>

#include "store/store.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

/// Copies what `reader` sees in its present transaction to `path`, under a temporary name until the copy is whole and on the disk, then
/// renamed: what stands at `path` before or after is never half a copy. Throws StoreError.
void copy_database(Connection& reader, const std::string& path);

/// The same for Store::back_up: refuses a name that is taken, and looks at the copy before it gets its name.
[[nodiscard]] Problems back_up_database(Connection& reader, const std::string& path);

}  // namespace fettle::sqlite
