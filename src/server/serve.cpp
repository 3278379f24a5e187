#include "server/serve.h"

#include <filesystem>

#include "app/open_jobs.h"
#include "app/system_clock.h"
#include "base/secret.h"
#include "server/desk.h"
#include "server/http_server.h"
#include "server/routes.h"

namespace fettle {
namespace {

constexpr std::size_t kWorkers = 4;

}  // namespace

Problems serve(const ServerAsked& asked, const RecordKeeper& records, Clock& clock, const std::function<void(const std::string& line)>& say) {
  Result<std::unique_ptr<Store>> store = records.open(asked.record, clock, true);
  if (!store.ok()) return store.problems();
  const ServerLimits limits = usual_server_limits();
  Result<std::unique_ptr<HttpServer>> listening = HttpServer::listen({asked.port, {"127.0.0.1"}, std::nullopt, limits});
  if (!listening.ok()) return listening.problems();
  HttpServer& server = *listening.value();

  LiveHub live(limits.streams, limits.stream_bytes);
  OpenJobs jobs(*store.value());
  const std::string name = std::filesystem::path(asked.record).filename().string();
  Served served{*store.value(), jobs, clock, live, name};
  Desk desk{random_secret(16), name};
  std::vector<HttpRoute> routes = all_routes(served);
  for (HttpRoute& each : desk_routes(desk)) routes.push_back(std::move(each));
  Gate gate({{{"localhost", "127.0.0.1", "[::1]"}, desk.token},
             page_files(),
             [](std::string_view) { return std::optional<std::string>(); },
             steady_milliseconds,
             limits.wrong_keys,
             limits.wrong_keys_for.count()},
            std::move(routes));
  Workers workers(kWorkers);
  say("http://127.0.0.1:" + std::to_string(server.port()) + "/");
  server.run(gate, live, workers, [] {});
  return {};
}

}  // namespace fettle
