#pragma once

#include <string>

#include "app/judge_job.h"
#include "cli/judgement_text.h"

namespace fettle {

/// What each gauge that was found out of true did: the readings in doubt, and verdicts, parts and engine before and now.
[[nodiscard]] std::string again_text(const JudgedJob& judged, const Look& look);

}  // namespace fettle
