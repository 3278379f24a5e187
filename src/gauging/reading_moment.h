#pragma once

#include <cstdint>
#include <string>
#include <tuple>

namespace fettle {

/// When in its setting something was done: rounds whose names are numbers come in the order of numbers, then the order in the round.
using ReadingMoment = std::tuple<int, long, std::string, std::int64_t>;

[[nodiscard]] ReadingMoment moment_in(const std::string& round, std::int64_t order);

}  // namespace fettle
