#pragma once

#include <string>

#include "gauging/gauge_study.h"
#include "text/sentence.h"

namespace fettle {

/// A study for the terminal: both ways side by side, why they differ, where the variance comes from, each person alone.
[[nodiscard]] std::string gauge_study_text(const GaugeStudy& study, Language language);

}  // namespace fettle
