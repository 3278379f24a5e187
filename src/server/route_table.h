#pragma once

#include <map>
#include <string>
#include <vector>

#include "server/http.h"

namespace fettle {

/// The routes, by path and method.
class RouteTable {
 public:
  explicit RouteTable(std::vector<HttpRoute> routes) : routes_(std::move(routes)) {}

  struct Found {
    const HttpRoute* route;                    ///< null: there is none
    std::map<std::string, std::string> words;  ///< of the path
    std::string other_methods;                 ///< "GET, HEAD, POST" where the path is there for others only; empty: no such path
  };
  /// HEAD is asked of the route of GET. The first route that fits counts.
  [[nodiscard]] Found find(const std::string& method, const std::string& path) const;

 private:
  std::vector<HttpRoute> routes_;
};

}  // namespace fettle
