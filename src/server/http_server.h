#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/workers.h"
#include "base/result.h"
#include "server/certificate.h"
#include "server/gate.h"
#include "server/limits.h"
#include "server/live_hub.h"

namespace fettle {

struct ListenOptions {
  std::uint16_t port;                  ///< 0: any that is free on all addresses
  std::vector<std::string> addresses;  ///< of this machine
  std::optional<Certificate> tls;      ///< then every address answers TLS, and plain text only to say how
  ServerLimits limits;
};

/// Who runs the handlers. What changes something has threads of its own: it must not wait for a page that takes long to make.
struct Hands {
  Workers& changing;
  Workers& reading;
};

/// Sockets, and what is read from and written to them. The network library stays behind this header. One thread runs it; handlers run on
/// the workers.
class HttpServer {
 public:
  /// Listens already when made. Problems: server.cannot_listen, server.bad_certificate.
  [[nodiscard]] static Result<std::unique_ptr<HttpServer>> listen(const ListenOptions& options);
  virtual ~HttpServer() = default;
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  [[nodiscard]] virtual std::uint16_t port() const = 0;
  /// Until SIGINT, SIGTERM or `stop`: streams are ended, requests under way answered. `each_second` is called by this thread.
  virtual void run(Gate& gate, LiveHub& live, const Hands& hands, const std::function<void()>& each_second) = 0;
  /// From any thread.
  virtual void stop() = 0;

 protected:
  HttpServer() = default;
};

}  // namespace fettle
