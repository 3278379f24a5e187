#pragma once

#include <string>

#include "cli/commands.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle gauge-study` was asked for.
struct GaugeStudyAsked {
  std::string file;
  std::string person;  ///< empty: everybody
  bool lines = false;
  bool json = false;
};

/// Problems: those of open_study.
[[nodiscard]] RunResult run_gauge_study(const GaugeStudyAsked& asked, Language language);

}  // namespace fettle
