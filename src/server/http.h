#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "text/sentence.h"

namespace fettle {

/// A request after every check of the border: host, origin, sizes, token, key.
struct HttpRequest {
  std::string method;
  std::string path;
  std::map<std::string, std::string> words;   ///< of the path: {job}, {part}; percent-decoded
  std::map<std::string, std::string> query;   ///< percent-decoded; the last of a name counts
  std::string body;
  Language language;
  bool loopback;
  std::optional<std::string> device;          ///< id of the paired device; nothing on loopback
};

struct HttpResponse {
  int status;
  std::string type;  ///< of the body: application/json ...
  std::vector<std::pair<std::string, std::string>> headers;
  std::string body;
};

/// Called from any of the workers, several at once.
using HttpHandler = std::function<HttpResponse(const HttpRequest&)>;

struct HttpRoute {
  std::string method;
  std::string pattern;  ///< "/api/jobs/{job}/acts"
  bool changes;         ///< needs the token
  std::size_t most_body_bytes;
  HttpHandler handler;
};

/// Tells all who listen. `job` empty: everybody; `device` nothing: every device.
class Live {
 public:
  Live() = default;
  Live(const Live&) = delete;
  Live& operator=(const Live&) = delete;
  virtual ~Live() = default;
  virtual void tell(const std::string& job, const std::optional<std::string>& device, const std::string& event, const std::string& json_line) = 0;
};

}  // namespace fettle
