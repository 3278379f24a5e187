#include "app/index_job.h"
#include "server/answers.h"
#include "server/desk.h"
#include "wire/border_json.h"

namespace fettle {
namespace {

HttpResponse hello(const Desk& desk, const HttpRequest& request) {
  return answered(hello_json({program_version(), desk.token, true, request.loopback, std::nullopt, desk.record_name}));
}

}  // namespace

std::vector<HttpRoute> desk_routes(Desk& desk) {
  return {{"GET", "/api/hello", false, 0, [&desk](const HttpRequest& request) { return hello(desk, request); }}};
}

}  // namespace fettle
