#pragma once

#include <string>

#include "app/simulate_guided.h"
#include "text/sentence.h"

namespace fettle {

/// A table for each hand.
[[nodiscard]] std::string guided_text(const GuidedRecord& record, Language language);

}  // namespace fettle
