#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "server/border.h"
#include "server/http.h"
#include "server/page_files.h"
#include "server/route_table.h"
#include "server/wrong_keys.h"

namespace fettle {

/// A request that may come in, its body still outside.
struct Admitted {
  const HttpRoute* route;  ///< null: the stream of live events
  HttpRequest request;
  std::string address;     ///< of the caller
};

/// What the gate rests on.
struct GateParts {
  Border border;
  const std::vector<PageFile>& files;
  std::function<std::optional<std::string>(std::string_view key)> device_of_key;  ///< id of the paired device; nothing: a wrong key
  std::function<std::int64_t()> milliseconds;                                     ///< of a clock that goes forward
  int wrong_keys;
  std::int64_t wrong_keys_for_milliseconds;
};

inline constexpr const char* kKeyCookie = "__Host-fettle-key";

/// Decides by the head of a request alone whether it comes in, before a byte of its body is read; then has it answered. Knows nothing of
/// sockets. Many threads may call it.
class Gate {
 public:
  Gate(GateParts parts, std::vector<HttpRoute> routes);

  /// The answer, where there is one already: a file of the page, or a refusal.
  [[nodiscard]] std::variant<HttpResponse, Admitted> admit(const Incoming& incoming, const Caller& caller);
  /// Runs the handler. What it throws becomes 500 or 503.
  [[nodiscard]] HttpResponse answer(const Admitted& admitted);

 private:
  [[nodiscard]] std::optional<Refusal> find_key(const Incoming& incoming, const Caller& caller, Admitted& admitted);
  [[nodiscard]] std::variant<HttpResponse, Admitted> admit_to_route(const Incoming& incoming, const Caller& caller, Admitted admitted);
  [[nodiscard]] HttpResponse page(const Incoming& incoming, const Admitted& admitted) const;

  GateParts parts_;
  RouteTable routes_;
  WrongKeys wrong_keys_;
};

}  // namespace fettle
