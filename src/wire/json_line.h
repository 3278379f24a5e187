#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string_view>

#include "base/problem.h"

// Inside `wire` only.
namespace fettle::json {

/// What came in. Not ordered: looking a key up stays quick in an object with very many of them.
using Read = nlohmann::json;

/// So many problems of one line are told; a line made of nothing else must not fill the memory.
inline constexpr std::size_t kMostProblems = 100;

/// Reads one JSON value from outside, trusting nothing. The library alone would keep the last of two equal keys and say
/// nothing. Problems: wire.too_large, .not_utf8, .not_json (with the column), .too_deep, .key_twice.
[[nodiscard]] std::optional<Read> read_line(std::string_view line, const Place& place, Problems& problems);

}  // namespace fettle::json
