#pragma once

#include <optional>
#include <string>

#include "base/result.h"
#include "gauging/gauge_study.h"
#include "gauging/studied_gauge.h"
#include "job/study_file.h"

namespace fettle {

/// A study with what it says.
struct OpenedStudy {
  GaugeStudy study;
  std::optional<StudiedGauge> for_job;  ///< as a job may hold it; nothing where all readings were alike
};

/// Reads the study in a TOML file, with the table beside it, and reckons it. `person`: only what he read, as a study of him alone. Problems:
/// those of text_files.h, job/study_file.h, gauging/gauge_study.h; app.study_no_person.
[[nodiscard]] Result<OpenedStudy> open_study(const std::string& path, const std::optional<std::string>& person);

}  // namespace fettle
