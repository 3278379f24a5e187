#pragma once

#include <string>

#include "text/sentence.h"
#include "verdict/verdict.h"

namespace fettle {

/// A mark with its word, never a colour alone: ▣ within, ◪ too close to call, ◨ beyond, ☐ not judged.
[[nodiscard]] std::string marked(VerdictWord word, Language language, bool colour);
/// Against a manufacturing limit: a used part that is past it is only no longer as new, so it gets words and no mark of alarm.
[[nodiscard]] std::string marked_new(VerdictWord word, Language language);
[[nodiscard]] std::string marked(StateWord word, Language language, bool colour);

/// Two digits, cut towards one half: 94.8 % must not read as the 95 % that the rule asks for.
[[nodiscard]] std::string chance_in_words(const Chance& chance);

}  // namespace fettle
