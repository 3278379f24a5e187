#pragma once

#include <string>
#include <vector>

#include "entry/text_fault.h"
#include "entry/typed_quantity.h"

namespace fettle {

/// The unit that `spelling`, which begins at code point `at`, means in this context, or nothing and a fault: entry.two_numbers,
/// .trade_tenths, .trade_hundredths, .trade_mil, .unknown_unit, .unknown_unit_near.
[[nodiscard]] const Unit* read_unit(const std::string& spelling, std::size_t at, const TypingContext& context,
                                    std::vector<TextFault>& faults);

}  // namespace fettle
