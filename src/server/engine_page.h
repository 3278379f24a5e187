#pragma once

#include "app/acts_done.h"
#include "app/whole_engine.h"
#include "text/sentence.h"
#include "wire/engine_page_json.h"

namespace fettle {

/// The whole engine in words.
[[nodiscard]] EnginePage engine_page(const RecordedJob& recorded, const WholeEngine& whole, const Asking& asking, Language language);

[[nodiscard]] ActsDonePage acts_done_page(const std::vector<ActInWords>& acts, Language language);

}  // namespace fettle
