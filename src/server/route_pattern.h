#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace fettle {

/// The words of a path where it is one of the pattern's ("/api/jobs/{job}" and "/api/jobs/tern": job = tern); nothing where it is not.
/// Percent-escapes of a word are undone; a word that holds "/", a control character or no UTF-8 matches nothing.
[[nodiscard]] std::optional<std::map<std::string, std::string>> match_path(std::string_view pattern, std::string_view path);

/// "%C3%B6" -> "ö"; nothing where an escape is broken.
[[nodiscard]] std::optional<std::string> percent_decoded(std::string_view text);

}  // namespace fettle
