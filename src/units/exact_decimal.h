#pragma once

#include <optional>
#include <string>

#include "units/ratio.h"

namespace fettle {

/// A fraction as decimal text that loses nothing, with a point and no more figures than it takes: "83.9978", "-0.001". Nothing where no
/// decimal with at most 18 places behind the point is exactly this value (1/3).
[[nodiscard]] std::optional<std::string> exact_decimal(const Ratio& value);

}  // namespace fettle
