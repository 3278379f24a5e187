#pragma once

#include <string>
#include <vector>

#include "limits/thumb_limits.h"
#include "text/sentence.h"

namespace fettle {

/// What rules of thumb say at these sizes, as a person reads it: first that none counts by itself, then each with its figure or the size that
/// is missing for it, and its source. `about` may be empty.
[[nodiscard]] std::string thumb_text(const std::string& about, const std::vector<const ThumbRule*>& rules, const ThumbSizes& sizes, Language language);

}  // namespace fettle
