#include "server/bench_routes.h"

#include "server/answers.h"
#include "server/bench_page.h"
#include "server/page_words.h"
#include "wire/page_schemas.h"

namespace fettle {

std::vector<HttpRoute> bench_routes(Served& served) {
  const HttpHandler bench = [&served](const HttpRequest& request) {
    return answered(bench_page_json(bench_page(bench_list(served.store, served.jobs, asking_of(request, served)), request.language)));
  };
  const HttpHandler kinds = [](const HttpRequest& request) { return answered(kind_list_json(kind_list_page(catalogue(), request.language))); };
  const HttpHandler openapi = [](const HttpRequest&) { return answered(std::string(openapi_text())); };
  const HttpHandler schema = [](const HttpRequest& request) -> HttpResponse {
    const std::string_view text = page_schema_text(request.words.at("name"));
    if (text.empty()) return refused(404, {{"server.no_such_schema", {}, {verbatim("name", request.words.at("name"))}}}, request.language);
    return {200, "application/schema+json", {}, std::string(text)};
  };
  return {{"GET", "/api/bench", false, 0, bench},
          {"GET", "/api/kinds", false, 0, kinds},
          {"GET", "/api/openapi.json", false, 0, openapi},
          {"GET", "/api/schemas/{name}", false, 0, schema}};
}

}  // namespace fettle
