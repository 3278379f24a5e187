#pragma once

#include <string>
#include <vector>

#include "limits/thumb_limits.h"
#include "text/sentence.h"
#include "wire/thumb_offers_json.h"

namespace fettle {

/// What rules of thumb say at these sizes, as a person reads it: first that none counts by itself, then each with its figure or the size that
/// is missing for it, and its source. `about` may be empty.
[[nodiscard]] std::string thumb_text(const std::string& about, const std::vector<const ThumbRule*>& rules, const ThumbSizes& sizes, Language language);

/// What a job is offered, by kind, as a table with what each is reckoned from and its source below; and how one of them is accepted. `command`:
/// how the list was asked for, "fettle thumb --job examples/curlew-3".
[[nodiscard]] std::string thumb_offers_text(const ThumbOffersPage& page, const std::string& command, Language language);

}  // namespace fettle
