#pragma once

#include <string>

#include "cli/commands.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle iso-fit` was asked for.
struct IsoFitAsked {
  std::string code;     ///< "H7/g6"
  std::string nominal;  ///< "80 mm", as typed
  bool json = false;
};

/// Problems: those of a typed length (entry.*) and of the code (limits.fit_*).
[[nodiscard]] RunResult run_iso_fit(const IsoFitAsked& asked, Language language);

}  // namespace fettle
