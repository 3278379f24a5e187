#pragma once

#include <string>
#include <vector>

#include "app/mistakes_asked.h"
#include "simulate/mistake_rates.h"
#include "text/sentence.h"

namespace fettle {

/// The scores of planted mistakes as tables, one for each hand.
[[nodiscard]] std::string mistake_rates_text(const MistakeRecord& record, Language language);

/// What is asked again of a finished job, a line or two for each question; one line where there is none.
[[nodiscard]] std::string mistakes_asked_text(const std::vector<MistakeAsked>& asked, const Job& job, Language language);

}  // namespace fettle
