#pragma once

#include "app/setting_screens.h"
#include "text/sentence.h"
#include "wire/setting_page_json.h"

namespace fettle {

/// The five screens in words and pictures.
[[nodiscard]] SettingPage setting_page(const RecordedJob& recorded, const SettingScreens& screens, Language language);

/// What the needle's place says, and what to do.
[[nodiscard]] std::string proof_sentence(const ProofFound& found, UnitId unit, Language language);

}  // namespace fettle
