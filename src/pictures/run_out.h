#pragma once

#include <optional>
#include <string>
#include <vector>

#include "drawing/drawing.h"
#include "text/sentence.h"
#include "units/unit.h"

namespace fettle {

/// One place round the clock. Degrees clockwise from 12 o'clock; mm.
struct ClockReading {
  std::string name;  ///< "12 o'clock"
  double degrees;
  std::optional<double> shows;  ///< nothing: not read
};

struct RunOutToDraw {
  std::string name;  ///< "Housing face"
  std::vector<ClockReading> readings;
  UnitId unit;
};

/// Readings round the clock about a true circle, by a stated exaggeration, with figures; high and low spot and the full travel between
/// them named where all were read: 328 wide. No line runs over a place that was not read.
[[nodiscard]] Drawing run_out_picture(const RunOutToDraw& run_out, Language language);

}  // namespace fettle
