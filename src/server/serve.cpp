#include "server/serve.h"

#include <sys/resource.h>

#include <filesystem>

#include "app/index_job.h"
#include "app/open_jobs.h"
#include "app/system_clock.h"
#include "app/whole_file.h"
#include "app/workers.h"
#include "base/secret.h"
#include "server/certificate.h"
#include "server/desk.h"
#include "server/http_server.h"
#include "server/own_addresses.h"
#include "server/routes.h"
#include "server/serial_ports.h"

namespace fettle {
namespace {

constexpr std::size_t kWorkers = 4;
constexpr int kListEverySeconds = 10;
constexpr std::size_t kTokenBytes = 16;
constexpr std::size_t kMostPem = 1'048'576;

bool is_every_address(const std::string& address) { return address == "0.0.0.0" || address == "::"; }
bool is_own_address(const std::string& address) { return address.starts_with("127.") || address == "::1" || address == "localhost"; }

std::string in_brackets(const std::string& address) { return address.find(':') == std::string::npos ? address : "[" + address + "]"; }

/// Each connection is an open file, and the usual limit of a shell is below what the server may hold.
void raise_file_limit() {
  rlimit limit{};
  if (::getrlimit(RLIMIT_NOFILE, &limit) != 0) return;
  limit.rlim_cur = limit.rlim_max;
  (void)::setrlimit(RLIMIT_NOFILE, &limit);
}

std::vector<std::string> addresses_to_listen_on(const ServerAsked& asked) {
  if (asked.open_to.empty()) return {"127.0.0.1"};
  if (is_every_address(asked.open_to)) return {asked.open_to};
  return {"127.0.0.1", asked.open_to};
}

/// By which others may call this machine.
CertifiedNames names_of_machine(const ServerAsked& asked) {
  CertifiedNames out{{"localhost"}, {"127.0.0.1"}};
  out.names.insert(out.names.end(), asked.names.begin(), asked.names.end());
  if (asked.open_to.empty()) return out;
  for (const std::string& each : own_names()) out.names.push_back(each);
  if (!is_every_address(asked.open_to)) {
    out.addresses.push_back(asked.open_to);
  } else {
    for (const std::string& each : own_addresses()) out.addresses.push_back(each);
  }
  return out;
}

std::vector<std::string> allowed_hosts(const CertifiedNames& names) {
  std::vector<std::string> out = names.names;
  out.emplace_back("[::1]");
  for (const std::string& each : names.addresses) out.push_back(in_brackets(each));
  return out;
}

/// Nothing: plain text, for this machine alone.
Result<std::optional<Certificate>> certificate_for(const ServerAsked& asked, const CertifiedNames& names) {
  if (asked.certificate.empty() != asked.key.empty()) return Problem{"server.certificate_and_key", {}, {}};
  if (!asked.certificate.empty()) {
    Problems problems;
    const auto certificate = read_whole_file(asked.certificate, kMostPem, problems);
    const auto key = read_whole_file(asked.key, kMostPem, problems);
    if (!certificate || !key) return problems;
    return std::optional(Certificate{*certificate, *key});
  }
  if (asked.open_to.empty()) return std::optional<Certificate>();
  Result<Certificate> own = own_certificate(asked.record + ".keys", names);
  if (!own.ok()) return own.problems();
  return std::optional(std::move(own).value());
}

std::string address_for_others(const ServerAsked& asked, std::uint16_t port) {
  if (asked.open_to.empty()) return {};
  const std::vector<std::string> own = own_addresses();
  const std::string address = !is_every_address(asked.open_to) ? asked.open_to : own.empty() ? std::string("localhost") : own.front();
  return "https://" + in_brackets(address) + ":" + std::to_string(port);
}

Problems problems_of(const ServerAsked& asked) {
  if (!asked.open_to.empty() && is_own_address(asked.open_to)) return {Problem{"server.open_to_itself", {}, {verbatim("address", asked.open_to)}}};
  if (!asked.open_to.empty() && !is_address(asked.open_to)) return {Problem{"server.no_address", {}, {verbatim("address", asked.open_to)}}};
  Problems out;
  for (const std::string& each : asked.names) {
    if (host_name(each) != each) out.push_back(Problem{"server.no_name", {}, {verbatim("name", each)}});
  }
  return out;
}

/// Everything that lives while the server does.
class Serving {
 public:
  Serving(const ServerAsked& asked, Store& store, Clock& wall, HttpServer& server, std::vector<GaugePort> gauge_ports, const CertifiedNames& names,
          const std::optional<Certificate>& tls)
      : server_(server),
        gauge_ports_(std::move(gauge_ports)),
        live_(limits_.streams, limits_.stream_bytes),
        jobs_(store),
        devices_(store, wall, steady_milliseconds),
        gauges_(gauge_ports_, store, wall, live_),
        served_{store, jobs_, wall, live_, std::filesystem::path(asked.record).filename().string(), &presence_},
        desk_{random_secret(kTokenBytes), served_.record_name, address_for_others(asked, server.port()), tls ? fingerprint_of(*tls) : std::string(),
              store, devices_, presence_, gauges_, live_, steady_milliseconds},
        gate_({{allowed_hosts(names), desk_.token},
               page_files(),
               [this](std::string_view key) { return devices_.device_of_key(key); },
               steady_milliseconds,
               limits_.wrong_keys,
               limits_.wrong_keys_for.count()},
              routes()) {}

  void say_where(const ServerAsked& asked, const std::function<void(const std::string& line)>& say) {
    if (!desk_.address.empty()) {
      say(sentence(Message{"server.open_to_others", {verbatim("address", desk_.address + "/")}}, asked.language));
      say(sentence(Message{"server.fingerprint", {verbatim("fingerprint", desk_.fingerprint)}}, asked.language));
      say(sentence(Message{"server.pair_at", {verbatim("address", pairing_address(desk_, devices_.new_code())), count("minutes", Devices::kPairingMinutes)}},
                   asked.language));
    }
    say("http://127.0.0.1:" + std::to_string(server_.port()) + "/");
  }

  void run() {
    const auto serial = SerialPorts::watch(gauge_ports_, {[this](const std::string& port, const std::string& line) { gauges_.received(port, line); },
                                                          [this](const std::string& port, bool there) { gauges_.is_there(port, there); }});
    Workers listener(1);
    listener.hand([&serial] { serial->run(); });
    {
      Workers changing(kWorkers);
      Workers reading(kWorkers);
      reading.hand([this] { list_left_behind(); });
      server_.run(gate_, live_, {changing, reading}, [this, &changing] { each_second(changing); });
    }
    jobs_.list(true);
    serial->stop();
  }

 private:
  std::vector<HttpRoute> routes() {
    std::vector<HttpRoute> out = all_routes(served_);
    for (HttpRoute& each : desk_routes(desk_)) out.push_back(std::move(each));
    return out;
  }

  void each_second(Workers& workers) {
    const auto listens = [this](const std::string& device) { return live_.listens(device); };
    for (const std::string& job : presence_.drop_gone(steady_milliseconds(), listens)) {
      live_.tell(job, std::nullopt, "present", present_event_json(job, presence_.people(job)));
    }
    workers.hand([this] { gauges_.try_again(); });
    if (++seconds_ % kListEverySeconds == 0) workers.hand([this] { jobs_.list(false); });
  }

  /// By a program that was killed.
  void list_left_behind() {
    try {
      list_jobs_left_behind(served_.store);
    } catch (const WorldError&) {
      // Whoever asks for a job is told what is wrong with the record.
    }
  }

  HttpServer& server_;
  const std::vector<GaugePort> gauge_ports_;
  const ServerLimits limits_ = usual_server_limits();
  LiveHub live_;
  OpenJobs jobs_;
  Devices devices_;
  Presence presence_;
  GaugeDesk gauges_;
  Served served_;
  Desk desk_;
  Gate gate_;
  int seconds_ = 0;
};

}  // namespace

Problems serve(const ServerAsked& asked, const RecordKeeper& records, Clock& clock, const std::function<void(const std::string& line)>& say) {
  if (Problems problems = problems_of(asked); !problems.empty()) return problems;
  Result<std::vector<GaugePort>> gauge_ports = read_gauge_ports(asked.gauges);
  if (!gauge_ports.ok()) return gauge_ports.problems();
  raise_file_limit();
  Result<std::unique_ptr<Store>> store = records.open(asked.record, clock, true);
  if (!store.ok()) return store.problems();
  const CertifiedNames names = names_of_machine(asked);
  const Result<std::optional<Certificate>> tls = certificate_for(asked, names);
  if (!tls.ok()) return tls.problems();
  Result<std::unique_ptr<HttpServer>> listening = HttpServer::listen({asked.port, addresses_to_listen_on(asked), tls.value(), usual_server_limits()});
  if (!listening.ok()) return listening.problems();
  HttpServer& server = *listening.value();
  Serving serving(asked, *store.value(), clock, server, std::move(gauge_ports).value(), names, tls.value());
  serving.say_where(asked, say);
  serving.run();
  return {};
}

}  // namespace fettle
