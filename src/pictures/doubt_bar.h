#pragma once

#include <optional>
#include <string>

#include "catalogue/expression.h"
#include "drawing/drawing.h"
#include "limits/limit.h"
#include "text/sentence.h"
#include "verdict/verdict.h"

namespace fettle {

/// Best estimate with its central 90 %.
struct BarEstimate {
  double low;
  double middle;
  double high;
};

/// One figure against its limit. Lengths in mm, ratios plain.
struct DoubtBar {
  std::string name;  ///< "Bore 3 · largest size"
  ResultDimension dimension;
  UnitId unit;
  std::optional<double> limit;
  LimitSide side;
  std::optional<double> as_measured;
  std::optional<BarEstimate> estimate;
  VerdictWord word;
};

/// Of a verdict; `dimension` is that of the limit's definition.
[[nodiscard]] DoubtBar bar_of(const Verdict& verdict, LimitSide side, ResultDimension dimension, const std::string& name, UnitId unit);

/// The limit as a post with the good side shaded, as measured as a hollow tick, the best estimate as a filled lozenge with its whisker,
/// the scale's figures at both ends: 330 x 44. What lies too far off for the scale stands at its end as an arrow with its figure.
[[nodiscard]] Drawing doubt_bar_picture(const DoubtBar& bar, Language language);

/// The mark of a judgement, told apart by shape: within: a filled bar between two posts; too close: a bar half filled astride a post;
/// beyond: a bar past the post, its end open; not judged: an empty box. 24 x 16.
[[nodiscard]] Drawing state_mark_picture(VerdictWord word, Language language);

}  // namespace fettle
