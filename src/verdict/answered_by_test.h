#pragma once

#include <vector>

#include "verdict/finding.h"

namespace fettle {

/// Whether what needed a test has had it: a later finding on the same part, of the same sort where both say one, tells what a test said.
/// `all`: in the order in which they were seen.
[[nodiscard]] bool answered_by_test(const Finding& asked, const std::vector<const Finding*>& all);

}  // namespace fettle
