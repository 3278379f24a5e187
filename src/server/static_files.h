#pragma once

#include <optional>
#include <string>
#include <vector>

#include "server/http.h"
#include "server/incoming.h"
#include "server/page_files.h"

namespace fettle {

/// The page's file of this path ("/" is /index.html), packed where the browser takes that, or 304 where it has it. Nothing where there is
/// no such file.
[[nodiscard]] std::optional<HttpResponse> static_file(const std::vector<PageFile>& files, const std::string& path, const Incoming& incoming);

/// What stands at "/" of a program that was built without its page.
[[nodiscard]] HttpResponse no_page(Language language);

}  // namespace fettle
