#pragma once

#include <optional>
#include <string_view>

#include "units/quantity.h"

namespace fettle {

/// "10.8e-6", "0.0005", "1/2" or "-3" exactly; nothing for any other text. At most 18 digits. The catalogue's own figures are
/// plain; what a person types is read by the room `entry`.
[[nodiscard]] std::optional<Ratio> read_figure(std::string_view text);

/// "5 µm", "0.5 div", "2 °C": a figure, a blank, a unit. Nothing for any other text.
[[nodiscard]] std::optional<Quantity> read_figure_with_unit(std::string_view text);

}  // namespace fettle
