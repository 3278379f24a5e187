#pragma once

#include <optional>
#include <string>

#include "gauging/gauge.h"

namespace fettle {

/// A place of a micrometer's thimble that stands on a line.
struct ThimblePlace {
  Length shown;       ///< what thimble and sleeve show
  std::string digits; ///< the same in the micrometer's own unit, to the last decimal that it is read to: "3.3070"
  UnitId unit;
  Length really_set;  ///< the micrometer's own zero error taken off
  Length off;         ///< really set less wanted
};

struct ThimbleChoice {
  ThimblePlace nearest;
  ThimblePlace below;  ///< one division less
  ThimblePlace above;
};

/// What the thimble shows at `lines` of its divisions. Needs a division of more than nothing.
[[nodiscard]] ThimblePlace thimble_place(const KnownGauge& micrometer, const Ratio& lines, Length wanted);

/// What a micrometer has to be set to, so that it is as near to the wanted size as its thimble shows exactly: round((wanted + zero
/// error)/division) divisions, half away from zero. Nothing for what has no thimble: a ring, blocks.
[[nodiscard]] std::optional<ThimbleChoice> thimble_choice(const KnownGauge& micrometer, Length wanted);

}  // namespace fettle
