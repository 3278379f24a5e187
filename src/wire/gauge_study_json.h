#pragma once

#include <optional>
#include <string>

#include "gauging/gauge_study.h"
#include "gauging/studied_gauge.h"

namespace fettle {

/// gauge-study.schema.json
[[nodiscard]] std::string gauge_study_json(const GaugeStudy& study, const std::optional<StudiedGauge>& for_job);

}  // namespace fettle
