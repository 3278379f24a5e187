#include "server/route_table.h"

#include <set>

#include "server/route_pattern.h"

namespace fettle {

RouteTable::Found RouteTable::find(const std::string& method, const std::string& path) const {
  const std::string asked = method == "HEAD" ? "GET" : method;
  std::set<std::string> methods;
  for (const HttpRoute& each : routes_) {
    auto words = match_path(each.pattern, path);
    if (!words) continue;
    if (each.method == asked) return {&each, *std::move(words), {}};
    methods.insert(each.method);
    if (each.method == "GET") methods.insert("HEAD");
  }
  std::string others;
  for (const std::string& each : methods) others += (others.empty() ? "" : ", ") + each;
  return {nullptr, {}, others};
}

}  // namespace fettle
