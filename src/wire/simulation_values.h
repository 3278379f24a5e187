#pragma once

#include <string>

#include "simulate/reliability.h"
#include "simulate/score.h"
#include "wire/json_values.h"

// Inside `wire` only: what the scores of simulated engines share.
namespace fettle::json {

/// Four decimals.
[[nodiscard]] std::string number(double value);
[[nodiscard]] Json scattered(const Scattered& figure);
[[nodiscard]] Json reliability_of(const Reliability& all);

}  // namespace fettle::json
