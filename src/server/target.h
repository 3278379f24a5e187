#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace fettle {

/// What a request asks for: "/api/live?job=tern" as its path, escapes left in, and the words behind "?", escapes undone.
struct Target {
  std::string path;
  std::map<std::string, std::string> query;  ///< the last of a name counts
};

/// Nothing where it does not begin with "/", holds a fragment, a character that no target may hold, or a broken escape in its query, or
/// where what the query says is no UTF-8.
[[nodiscard]] std::optional<Target> read_target(std::string_view text);

}  // namespace fettle
