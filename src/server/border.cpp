#include "server/border.h"

#include <algorithm>

#include "base/secret.h"

namespace fettle {
namespace {

bool is_of_a_name(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_' || c == ':' || c == '[' || c == ']';
}

std::string in_small_letters_of_ascii(std::string_view text) {
  std::string out(text);
  for (char& each : out) {
    if (each >= 'A' && each <= 'Z') each = static_cast<char>(each - 'A' + 'a');
  }
  return out;
}

bool is_port(std::string_view text) {
  return !text.empty() && text.size() <= 5 && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// A list of equal lengths is allowed to be read as one; not by us.
bool is_length(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Two readers must never disagree where a body ends: that is how one request is smuggled inside another.
bool has_sound_framing(const Incoming& incoming) {
  const std::size_t encodings = count_of_field(incoming, "Transfer-Encoding");
  const std::size_t lengths = count_of_field(incoming, "Content-Length");
  if (encodings == 0) return lengths == 0 || (lengths == 1 && is_length(field_of(incoming, "Content-Length")));
  return encodings == 1 && lengths == 0 && incoming.version >= 11 && same_field_name(field_of(incoming, "Transfer-Encoding"), "chunked");
}

std::optional<Refusal> refuse_host(const Incoming& incoming, const Border& border) {
  if (count_of_field(incoming, "Host") != 1) return Refusal{400, {"server.no_host", {}, {}}};
  const std::string_view host = field_of(incoming, "Host");
  const auto name = host_name(host);
  if (name && std::find(border.names.begin(), border.names.end(), *name) != border.names.end()) return std::nullopt;
  return Refusal{421, {"server.foreign_host", {}, {verbatim("host", name ? *name : std::string())}}};
}

}  // namespace

std::optional<std::string> host_name(std::string_view host) {
  const std::string all = in_small_letters_of_ascii(host);
  if (all.empty() || !std::all_of(all.begin(), all.end(), is_of_a_name)) return std::nullopt;
  const auto end = all.front() == '[' ? all.find(']') + 1 : all.find(':');
  if (end == 0 || (end != std::string::npos && end < all.size() && (all[end] != ':' || !is_port(std::string_view(all).substr(end + 1))))) return std::nullopt;
  return all.substr(0, end);
}

std::optional<Refusal> refuse_head(const Incoming& incoming, const Caller& caller, const Border& border) {
  if (!has_sound_framing(incoming)) return Refusal{400, {"server.body_framing", {}, {}}};
  if (auto refusal = refuse_host(incoming, border)) return refusal;
  const std::string_view expect = field_of(incoming, "Expect");
  if (!expect.empty() && !same_field_name(expect, "100-continue")) return Refusal{417, {"server.expectation", {}, {}}};
  if (!caller.loopback && !caller.encrypted) {
    return Refusal{403, {"server.needs_tls", {}, {verbatim("address", "https://" + std::string(field_of(incoming, "Host")) + "/")}}};
  }
  return std::nullopt;
}

std::optional<Refusal> refuse_foreign_page(const Incoming& incoming, const Caller& caller, bool sends) {
  const Refusal refusal{403, {"server.foreign_page", {}, {}}};
  const std::string_view site = field_of(incoming, "Sec-Fetch-Site");
  const bool from_nowhere = site.empty() || (!sends && site == "none");
  if (!from_nowhere && site != "same-origin") return refusal;
  if (!sends) return std::nullopt;
  if (count_of_field(incoming, "Origin") == 0) return std::nullopt;
  const std::string own = (caller.encrypted ? "https://" : "http://") + std::string(field_of(incoming, "Host"));
  if (count_of_field(incoming, "Origin") > 1 || !same_field_name(field_of(incoming, "Origin"), own)) return refusal;
  return std::nullopt;
}

std::optional<Refusal> refuse_token(const Incoming& incoming, const Border& border) {
  if (count_of_field(incoming, "Fettle-Token") == 1 && same_secret(field_of(incoming, "Fettle-Token"), border.token)) return std::nullopt;
  return Refusal{403, {"server.token", {}, {}}};
}

}  // namespace fettle
