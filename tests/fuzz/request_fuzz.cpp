#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "base/assertion.h"
#include "base/document.h"
#include "server/answers.h"
#include "server/gate.h"

namespace fettle {
namespace {

std::string_view line_from(std::string_view& rest) {
  const auto end = rest.find('\n');
  const std::string_view line = rest.substr(0, end);
  rest = end == std::string_view::npos ? std::string_view() : rest.substr(end + 1);
  return line;
}

/// "GET /path", then a line for each field: a head as the parser would have taken it apart, and worse.
Incoming incoming_of(std::string_view text) {
  const std::string_view first = line_from(text);
  const auto blank = first.find(' ');
  Incoming out{11, std::string(first.substr(0, blank)), blank == std::string_view::npos ? std::string() : std::string(first.substr(blank + 1)), {}};
  while (!text.empty()) {
    const std::string_view field = line_from(text);
    const auto colon = field.find(": ");
    if (colon != std::string_view::npos) out.fields.emplace_back(std::string(field.substr(0, colon)), std::string(field.substr(colon + 2)));
  }
  return out;
}

Gate& gate() {
  static const std::vector<PageFile> kFiles = {{"/index.html", "text/html", "page", "packed", "a"}};
  static std::int64_t now = 0;
  const HttpHandler handler = [](const HttpRequest& request) {
    for (const auto& [name, word] : request.words) FETTLE_ASSERT(is_utf8(word) && word.find('/') == std::string::npos, name);
    for (const auto& [name, word] : request.query) FETTLE_ASSERT(is_utf8(name) && is_utf8(word), name);
    FETTLE_ASSERT(request.loopback || request.device || request.path == "/api/hello" || request.path == "/api/pair", "let in without a key");
    return answered("{}");
  };
  static Gate out({{{"localhost", "[::1]"}, "t"},
                   kFiles,
                   [](std::string_view key) { return key == "good" ? std::optional<std::string>("p-1") : std::nullopt; },
                   [] { return now += 100'000; },
                   3,
                   1000},
                  {{"GET", "/api/hello", false, 0, handler},
                   {"POST", "/api/pair", true, 100, handler},
                   {"GET", "/api/jobs/{job}", false, 0, handler},
                   {"POST", "/api/jobs/{job}/acts", true, 100, handler}});
  return out;
}

}  // namespace
}  // namespace fettle

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(data, data + size);
  const fettle::Incoming incoming = fettle::incoming_of(text);
  for (const bool here : {true, false}) {
    auto decided = fettle::gate().admit(incoming, {"10.0.0.1", here, true});
    const auto* admitted = std::get_if<fettle::Admitted>(&decided);
    if (admitted == nullptr || admitted->route == nullptr) continue;
    const fettle::HttpResponse response = fettle::gate().answer(*admitted);
    FETTLE_ASSERT(response.status == 200, response.body);
    FETTLE_ASSERT(!admitted->route->changes || fettle::field_of(incoming, "Fettle-Token") == "t", "changed without the token");
  }
  return 0;
}
