#include "cli/serve_command.h"

#include "cli/exit_code.h"

namespace fettle {

RunResult run_serve(const ServeAsked& asked, Language language, const World& world) {
  const ServerAsked wanted{asked.record, asked.port, asked.open_to, asked.certificate, asked.key, asked.names, asked.gauges, language};
  RunResult out{kFine, {}, {}};
  for (const Problem& each : world.serve(wanted, world.records, world.clock, world.say)) {
    out.error += sentence(each, language) + "\n";
    out.exit_code = each.code == "server.cannot_listen" || each.code.starts_with("store.cannot") ? kWorldFailed : kInput;
  }
  return out;
}

}  // namespace fettle
