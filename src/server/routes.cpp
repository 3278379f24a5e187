#include "server/routes.h"

#include <iterator>

#include "server/act_routes.h"
#include "server/bench_routes.h"
#include "server/engine_routes.h"
#include "server/round_routes.h"
#include "server/setting_routes.h"
#include "server/sheet_routes.h"
#include "server/verdict_routes.h"

namespace fettle {
namespace {

void add(std::vector<HttpRoute>& routes, std::vector<HttpRoute> more) {
  routes.insert(routes.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

std::vector<HttpRoute> all_routes(Served& served) {
  std::vector<HttpRoute> routes;
  // One line for each file of routes.
  add(routes, act_routes(served));
  add(routes, bench_routes(served));
  add(routes, engine_routes(served));
  add(routes, round_routes(served));
  add(routes, setting_routes(served));
  add(routes, sheet_routes(served));
  add(routes, verdict_routes(served));
  return routes;
}

}  // namespace fettle
