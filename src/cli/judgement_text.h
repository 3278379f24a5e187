#pragma once

#include <string>

#include "app/judge_job.h"
#include "text/sentence.h"

namespace fettle {

struct Look {
  Language language;
  bool colour;           ///< only on a terminal
  bool all_definitions;  ///< list each part under every definition as well
};

/// The judged job as a person reads it at a terminal.
[[nodiscard]] std::string judgement_text(const JudgedJob& judged, const Look& look);

/// One verdict unfolded: readings as typed, sizes, characteristic, limit with its origin, doubt by source, the word and why. Gives
/// nothing if there is no such part or limit.
[[nodiscard]] std::optional<std::string> why_text(const JudgedJob& judged, const std::string& part, const std::string& limit,
                                                  const Look& look);

}  // namespace fettle
