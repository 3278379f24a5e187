#pragma once

#include <cstdint>

namespace fettle {

/// Milliseconds of a clock that only goes forward, from some moment in the past. For how long something has been so; decides no size and no
/// verdict.
[[nodiscard]] std::int64_t steady_milliseconds();

}  // namespace fettle
