#pragma once

#include "app/verdict_rows.h"
#include "app/whole_engine.h"
#include "text/sentence.h"
#include "wire/verdict_page_json.h"

namespace fettle {

/// The verdicts in words and pictures.
[[nodiscard]] VerdictPage verdict_page(const RecordedJob& recorded, const JudgedJob& judged, const WholeEngine& whole, Language language);

/// What a chance reads like: "98 in 100 that it is past the limit". Cut towards one half: 94.8 must not read as the 95 of the rule.
[[nodiscard]] std::string chance_sentence(const Chance& kept, Language language);

}  // namespace fettle
