#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.h"

namespace fettle {

enum class Language { english, german };

/// "en", "de" and nothing else.
[[nodiscard]] std::optional<Language> find_language(std::string_view code);

/// Makes the sentence. A key that German lacks is answered in English; a key that English lacks comes out as "[key]", which a
/// test looks for. Figures get the decimal mark of the language; they are already rounded.
[[nodiscard]] std::string sentence(const Message& message, Language language);

/// "job.toml:12:8: what is wrong. What to do." The place is left out as far as it is not known.
[[nodiscard]] std::string sentence(const Problem& problem, Language language);

/// What is wrong and what to do, without the place.
[[nodiscard]] std::string what_and_do(const Problem& problem, Language language);

/// The word or title behind a key without arguments. A key ending in ".inside" or ".outside" that is not there is answered by the
/// one without that end.
[[nodiscard]] std::string word_for(std::string_view key, Language language);

/// A figure with the decimal mark of the language: "84.0978" -> "84,0978".
[[nodiscard]] std::string with_decimal_mark(std::string digits, Language language);

[[nodiscard]] bool has_key(std::string_view key, Language language);
[[nodiscard]] std::vector<std::string> all_keys(Language language);

}  // namespace fettle
