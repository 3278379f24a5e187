#pragma once

#include <string>
#include <vector>

#include "cli/commands.h"
#include "text/sentence.h"

namespace fettle {

/// What `fettle proof-read` was asked for.
struct ProofAsked {
  std::vector<std::string> paths;  ///< files of limits, or folders of them
  bool json = false;
};

/// Exit code 1 where something was found, 2 where a sheet could not be read.
[[nodiscard]] RunResult run_proof(const ProofAsked& asked, Language language);

}  // namespace fettle
