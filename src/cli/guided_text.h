#pragma once

#include <string>

#include "app/simulate_guided.h"
#include "cli/simulate_text.h"
#include "text/sentence.h"

namespace fettle {

/// "losses-guided-mid", "chances-guided-mid": pictures of each hand, laid out for `width` pixels.
[[nodiscard]] std::vector<NamedChart> guided_charts(const GuidedRecord& record, Language language, double width);

/// A table for each hand.
[[nodiscard]] std::string guided_text(const GuidedRecord& record, Language language);

}  // namespace fettle
