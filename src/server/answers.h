#pragma once

#include <string>
#include <string_view>

#include "base/problem.h"
#include "server/http.h"
#include "wire/border_json.h"

namespace fettle {

/// What is wrong and what to do, without the place: whoever typed it knows where.
[[nodiscard]] std::vector<SaidProblem> said(const Problems& problems, Language language);
/// {"format":"fettle-refusal", ...} with the sentences of the language.
[[nodiscard]] HttpResponse refused(int status, const Problems& problems, Language language);
[[nodiscard]] HttpResponse answered(std::string json);

/// German where it comes before English in what the browser prefers, else English.
[[nodiscard]] Language language_of_browser(std::string_view accept_language);

/// Status line and fields of an answer, security fields among them, up to the empty line. `length`: of the body; a stream has none.
[[nodiscard]] std::string head_of(const HttpResponse& response, std::size_t length, bool keeps_open);
[[nodiscard]] std::string head_of_stream();

}  // namespace fettle
