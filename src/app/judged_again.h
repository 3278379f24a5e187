#pragma once

#include <vector>

#include "verdict/judged_again.h"

namespace fettle {

struct JudgedJob;
struct JudgeOptions;

/// One for each [[found_out]], in their order; nothing where there is none. Judges the job once more for each, without that one.
[[nodiscard]] std::vector<JudgedAgain> judged_again(const JudgedJob& judged, const JudgeOptions& options);

}  // namespace fettle
