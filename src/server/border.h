#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/problem.h"
#include "server/incoming.h"

namespace fettle {

/// What is refused, with the status of HTTP and a sentence for the person.
struct Refusal {
  int status;
  Problem problem;
};

/// What is asked of every request before anybody looks at what it wants.
struct Border {
  std::vector<std::string> names;  ///< by which this server may be called, in small letters, without a port; addresses of version 6 in brackets
  std::string token;               ///< of requests that change something
};

/// Whether the head alone can be trusted: one allowed host, a body whose end is told in one way, and no plain text from outside. Problems:
/// server.no_host, server.foreign_host, server.body_framing, server.expectation, server.needs_tls.
[[nodiscard]] std::optional<Refusal> refuse_head(const Incoming& incoming, const Caller& caller, const Border& border);

/// Whether a page of this server asked, as far as a browser tells: its own kind of mark that no foreign page can set, and where the page
/// comes from. `sends`: any method but GET and HEAD. Problems: server.foreign_page.
[[nodiscard]] std::optional<Refusal> refuse_foreign_page(const Incoming& incoming, const Caller& caller, bool sends);

/// Problems: server.token.
[[nodiscard]] std::optional<Refusal> refuse_token(const Incoming& incoming, const Border& border);

/// "tern.local:8420" -> "tern.local"; "[::1]:80" -> "[::1]"; nothing where it is no host with a port.
[[nodiscard]] std::optional<std::string> host_name(std::string_view host);

}  // namespace fettle
