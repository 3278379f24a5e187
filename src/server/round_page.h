#pragma once

#include "app/round_plan.h"
#include "text/sentence.h"
#include "wire/round_page_json.h"

namespace fettle {

/// The round of one part in words and pictures.
[[nodiscard]] RoundPage round_page(const RecordedJob& recorded, const RoundPlan& plan, Language language);

/// Lines of a kind: its own sentence, else that of the texts under list + "." + id.
[[nodiscard]] std::vector<std::string> kind_lines(const std::vector<KindLine>& lines, const std::string& list, Language language);

}  // namespace fettle
