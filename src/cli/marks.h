#pragma once

#include <string>

#include "text/sentence.h"
#include "verdict/verdict.h"

namespace fettle {

/// A mark with its word, never a colour alone: ▣ within, ◪ too close to call, ◨ beyond, ☐ not judged.
[[nodiscard]] std::string marked(VerdictWord word, Language language, bool colour);
[[nodiscard]] std::string marked(StateWord word, Language language, bool colour);

}  // namespace fettle
