#pragma once

#include <string>

#include "verdict/limits_changed.h"

namespace fettle {

/// sheet-change.schema.json
[[nodiscard]] std::string sheet_change_json(const std::string& sheet, const LimitsChanged& changed);

}  // namespace fettle
