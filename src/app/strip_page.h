#pragma once

#include <cstdint>
#include <vector>

#include "app/strip_list.h"
#include "text/sentence.h"
#include "wire/strip_page_json.h"

namespace fettle {

/// The list in words. `worry`: what could end the job; `position`: where the log of the job ends, 0 of a folder.
[[nodiscard]] StripPage strip_page(const Job& job, const StripList& list, const std::vector<Message>& worry, std::int64_t position, Language language);

}  // namespace fettle
