#pragma once

#include <cstdint>
#include <optional>

#include "drawing/drawing.h"
#include "gauging/thimble.h"
#include "text/sentence.h"

namespace fettle {

/// How sleeve and thimble are ruled: inch .025 a turn in .001, metric 0.5 mm a turn in 0.01; with a vernier a tenth of that.
struct ThimbleScale {
  UnitId unit;  ///< inch or millimetre
  bool vernier;
};

/// The scale of a micrometer with this division. Nothing where it is not .001, .0001, 0.01 or 0.001: no sleeve is drawn for it.
[[nodiscard]] std::optional<ThimbleScale> thimble_scale(Length division, UnitId unit);

/// What stands where. All counts are exact; `line` is the whole thimble line at or just below the datum.
struct ThimbleLines {
  std::int64_t turns;            ///< sleeve lines that are bare: of .025, or of 0.5 mm
  std::int64_t line;             ///< 0 to 24, or 0 to 49
  Ratio past;                    ///< of a line's space that the datum stands past `line`: 0 up to 1
  std::optional<int> coincides;  ///< vernier line, 0 to 9, that meets a thimble line; nothing without vernier
};

/// Needs shown >= 0.
[[nodiscard]] ThimbleLines thimble_lines(Length shown, const ThimbleScale& scale);

/// Sleeve and thimble exactly as they must look when the micrometer shows `place`, 340 wide. `from` is the micrometer's range's
/// beginning: the sleeve shows what is above it ("3-4 in": from 3 in). Nothing: it is the greatest whole inch or 25 mm at or below.
[[nodiscard]] Drawing thimble_picture(const ThimblePlace& place, const ThimbleScale& scale, std::optional<Length> from,
                                      Language language);

}  // namespace fettle
