#pragma once

#include <string>

#include "entry/typed_quantity.h"

namespace fettle {

/// What a job says about all texts in it.
struct JobMarks {
  std::optional<DecimalMark> decimal_mark;
  std::optional<TradeWords> trade_words;
};

/// A quantity as text that is understood without the unit of a column: as typed, and where that has no unit of its own, with the unit
/// behind it. A place of the needle needs none.
[[nodiscard]] std::string typed_alone(const TypedQuantity& typed, const JobMarks& marks);

/// Whether the text, read by itself on a dial or off it, means another quantity than it was typed as; then a column has to say the unit.
[[nodiscard]] bool needs_unit(const TypedQuantity& typed, const JobMarks& marks);

/// An exact figure with its unit, as a person would type it; never with exactly three figures behind the mark, which could group
/// thousands. A fraction where no decimal is exact.
[[nodiscard]] std::string figure_text(const Ratio& value, UnitId unit, const JobMarks& marks);

}  // namespace fettle
