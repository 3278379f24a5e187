#pragma once

#include <string>

#include "cli/judgement_text.h"
#include "verdict/limits_changed.h"

namespace fettle {

/// What a version of a sheet would change: limits, verdicts, parts, the engine, before and then; and what stays. `sheet` is its id.
[[nodiscard]] std::string sheet_change_text(const std::string& sheet, const LimitsChanged& changed, const Look& look);

}  // namespace fettle
