#pragma once

#include <vector>

#include "server/http.h"
#include "server/served.h"

namespace fettle {

[[nodiscard]] std::vector<HttpRoute> sheet_routes(Served& served);

}  // namespace fettle
