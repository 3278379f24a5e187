#pragma once

#include <string>
#include <vector>

#include "base/progress.h"

namespace fettle {

/// What a run of the program gives back.
struct RunResult {
  int exit_code;  ///< 0 fine; 1 judged and not all within; 2 input; 3 the world failed; 4 we were wrong
  std::string out;
  std::string error;
};

/// Runs `fettle` with these arguments (without the program's own name). `terminal`: whether the output goes to a terminal, where
/// colour may be used.
[[nodiscard]] RunResult run(const std::vector<std::string>& arguments, bool terminal);

/// The same; what takes long tells `progress` how far it is and stops when it says so.
[[nodiscard]] RunResult run(const std::vector<std::string>& arguments, bool terminal, Progress& progress);

}  // namespace fettle
