#pragma once

#include <string>

#include "text/sentence.h"
#include "verdict/setting_up.h"

namespace fettle {

/// How to set a gauge, as a person reads it at the bench: five steps in the order of the work. Lengths in `unit`.
[[nodiscard]] std::string setting_up_text(const SettingUp& setting_up, UnitId unit, Language language);

}  // namespace fettle
