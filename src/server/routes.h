#pragma once

#include <vector>

#include "server/http.h"
#include "server/served.h"

namespace fettle {

/// Every route that works on the record: the one place where they are put together.
[[nodiscard]] std::vector<HttpRoute> all_routes(Served& served);

}  // namespace fettle
