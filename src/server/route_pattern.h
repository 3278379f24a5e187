#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace fettle {

/// The words of a path where it is one of the pattern's ("/api/jobs/{job}" and "/api/jobs/tern": job = tern); nothing where it is not.
/// The path is cut at its "/" first; then the escapes of each word are undone, so that a word may hold anything, a "/" among it, but a
/// control character or what is no UTF-8: such a one matches nothing. Words name things of the record and are never a path to a file.
[[nodiscard]] std::optional<std::map<std::string, std::string>> match_path(std::string_view pattern, std::string_view path);

/// "%C3%B6" -> "ö"; nothing where an escape is broken.
[[nodiscard]] std::optional<std::string> percent_decoded(std::string_view text);

}  // namespace fettle
