#pragma once

#include <vector>

#include "store/store.h"
#include "store_sqlite/connection.h"

namespace fettle::sqlite {

/// As Store::faults, of a file of any version up to this program's; inside a transaction for reading.
[[nodiscard]] std::vector<StoreFault> faults_of(Connection& reader);

}  // namespace fettle::sqlite
