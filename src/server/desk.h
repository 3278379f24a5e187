#pragma once

#include <string>
#include <vector>

#include "server/http.h"

namespace fettle {

/// What the server's own routes work on: itself, its devices, people and gauges at work.
struct Desk {
  std::string token;
  std::string record_name;
};

[[nodiscard]] std::vector<HttpRoute> desk_routes(Desk& desk);

}  // namespace fettle
