#pragma once

#include <vector>

#include "server/http.h"
#include "server/served.h"

namespace fettle {

/// What changes a job: acts, new engines, the example, photos; and what a typed text means, and the photos again.
[[nodiscard]] std::vector<HttpRoute> act_routes(Served& served);

}  // namespace fettle
