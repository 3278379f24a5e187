#pragma once

#include <string>
#include <vector>

#include "cli/world.h"

namespace fettle {

/// What a run of the program gives back.
struct RunResult {
  int exit_code;  ///< 0 fine; 1 judged and not all within; 2 input; 3 the world failed; 4 we were wrong
  std::string out;
  std::string error;
};

/// Runs `fettle` with these arguments (without the program's own name). `terminal`: whether the output goes to a terminal, where
/// colour may be used. What takes long tells `world.progress` how far it is and stops when it says so.
[[nodiscard]] RunResult run(const std::vector<std::string>& arguments, bool terminal, const World& world);

/// The same where no record is touched.
[[nodiscard]] RunResult run(const std::vector<std::string>& arguments, bool terminal, Progress& progress);
[[nodiscard]] RunResult run(const std::vector<std::string>& arguments, bool terminal);

}  // namespace fettle
