#pragma once

#include "catalogue/engine_plan.h"
#include "text/sentence.h"
#include "wire/strip_page_json.h"

namespace fettle {

/// The questions that play a part with these answers, in words, and the groups of parts that follow. An answer that plays no part with the
/// others is left out: whoever is still choosing has just turned to another engine. Problems: those of plan_engine else.
[[nodiscard]] Result<EnginePlanPage> engine_plan_page(EngineAnswers answers, Language language);

/// "cycle:two-stroke,cylinders:2" -> the answers; a piece without a colon is a question with an empty answer.
[[nodiscard]] EngineAnswers answers_in(const std::string& text);

}  // namespace fettle
