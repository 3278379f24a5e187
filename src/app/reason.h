#pragma once

#include <string>

#include "base/problem.h"

namespace fettle {

/// So long a reason is kept, in bytes of UTF-8.
inline constexpr std::size_t kLongestReason = 2000;

/// record.no_reason: nothing but blanks, too long, no UTF-8, or with control characters that no line should hold.
[[nodiscard]] Problems problems_of_reason(const std::string& why);

}  // namespace fettle
