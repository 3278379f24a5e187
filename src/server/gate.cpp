#include "server/gate.h"

#include <charconv>

#include "base/assertion.h"
#include "server/answers.h"
#include "server/static_files.h"
#include "server/target.h"
#include "store/store.h"

namespace fettle {
namespace {

constexpr std::string_view kLivePath = "/api/live";
constexpr std::string_view kPairPath = "/api/pair";

bool reads_only(const std::string& method) { return method == "GET" || method == "HEAD"; }

/// Whoever has no key yet must be able to get one.
bool needs_no_key(std::string_view path) { return path == "/api/hello" || path == kPairPath; }

bool is_too_large(const Incoming& incoming, std::size_t most) {
  const std::string_view length = field_of(incoming, "Content-Length");
  std::uint64_t bytes = 0;
  const auto [end, error] = std::from_chars(length.data(), length.data() + length.size(), bytes);
  return !length.empty() && (error != std::errc() || end != length.data() + length.size() || bytes > most);
}

HttpResponse refusal_to(const Refusal& refusal, Language language) { return refused(refusal.status, {refusal.problem}, language); }

HttpResponse without_method(const std::string& methods, Language language) {
  HttpResponse out = refusal_to({405, {"server.method", {}, {verbatim("methods", methods)}}}, language);
  out.headers.emplace_back("Allow", methods);
  return out;
}

}  // namespace

Gate::Gate(GateParts parts, std::vector<HttpRoute> routes)
    : parts_(std::move(parts)), routes_(std::move(routes)), wrong_keys_(parts_.wrong_keys, parts_.wrong_keys_for_milliseconds) {}

std::variant<HttpResponse, Admitted> Gate::admit(const Incoming& incoming, const Caller& caller) {
  const Language language = language_of_browser(field_of(incoming, "Accept-Language"));
  const auto no = [&](const Refusal& refusal) { return refusal_to(refusal, language); };
  if (const auto refusal = refuse_head(incoming, caller, parts_.border)) return no(*refusal);
  auto target = read_target(incoming.target);
  if (!target) return no({400, {"server.target", {}, {}}});
  Admitted admitted{nullptr, {incoming.method, target->path, {}, std::move(target->query), {}, language, caller.loopback, std::nullopt}, caller.address};
  if (!target->path.starts_with("/api/")) return page(incoming, admitted);
  if (const auto refusal = refuse_foreign_page(incoming, caller, !reads_only(incoming.method))) return no(*refusal);
  if (const auto refusal = find_key(incoming, caller, admitted)) return no(*refusal);
  return admit_to_route(incoming, caller, std::move(admitted));
}

HttpResponse Gate::page(const Incoming& incoming, const Admitted& admitted) const {
  const HttpRequest& request = admitted.request;
  if (parts_.files.empty() && request.path == "/" && reads_only(request.method)) return no_page(request.language);
  auto file = static_file(parts_.files, request.path, incoming);
  if (!file) return refusal_to({404, {"server.no_such_path", {}, {}}}, request.language);
  if (!reads_only(request.method)) return without_method("GET, HEAD", request.language);
  return *std::move(file);
}

std::optional<Refusal> Gate::find_key(const Incoming& incoming, const Caller& caller, Admitted& admitted) {
  const std::string_view key = cookie_of(incoming, kKeyCookie);
  const std::int64_t now = parts_.milliseconds();
  // A device that was revoked, or paired with another record, still sends its old key: it may ask for a new one, as often as others may.
  const bool brings_secret = admitted.request.path == kPairPath || (!key.empty() && !caller.loopback);
  if (brings_secret && wrong_keys_.must_wait(caller.address, now)) return Refusal{429, {"server.too_many_wrong_keys", {}, {}}};
  if (!key.empty()) admitted.request.device = parts_.device_of_key(key);
  if (admitted.request.device || caller.loopback || needs_no_key(admitted.request.path)) return std::nullopt;
  if (!key.empty()) wrong_keys_.wrong(caller.address, now);
  return Refusal{401, {"server.not_paired", {}, {}}};
}

std::variant<HttpResponse, Admitted> Gate::admit_to_route(const Incoming& incoming, const Caller&, Admitted admitted) {
  const Language language = admitted.request.language;
  const auto no = [&](const Refusal& refusal) { return refusal_to(refusal, language); };
  if (admitted.request.path == kLivePath) {
    if (incoming.method != "GET") return without_method("GET", language);
    return admitted;
  }
  RouteTable::Found found = routes_.find(incoming.method, admitted.request.path);
  if (found.route == nullptr && !found.other_methods.empty()) return without_method(found.other_methods, language);
  if (found.route == nullptr) return no({404, {"server.no_such_path", {}, {}}});
  if (found.route->changes) {
    if (const auto refusal = refuse_token(incoming, parts_.border)) return no(*refusal);
  }
  if (is_too_large(incoming, found.route->most_body_bytes)) {
    return no({413, {"server.body_too_large", {}, {count("most", static_cast<std::int64_t>(found.route->most_body_bytes))}}});
  }
  admitted.route = found.route;
  admitted.request.words = std::move(found.words);
  return admitted;
}

HttpResponse Gate::answer(const Admitted& admitted) {
  FETTLE_ASSERT(admitted.route != nullptr, admitted.request.path);
  const Language language = admitted.request.language;
  try {
    HttpResponse out = admitted.route->handler(admitted.request);
    if (admitted.request.path == kPairPath) {
      if (out.status == 200) wrong_keys_.right(admitted.address);
      if (out.status == 401) wrong_keys_.wrong(admitted.address, parts_.milliseconds());
    }
    return out;
  } catch (const StoreError& error) {
    return refusal_to({503, error.problem}, language);
  } catch (const WorldError& error) {
    return refusal_to({503, {"server.world_failed", {}, {verbatim("what", error.what())}}}, language);
  } catch (const std::exception& error) {
    return refusal_to({500, {"server.fault_of_ours", {}, {verbatim("what", error.what())}}}, language);
  }
}

}  // namespace fettle
