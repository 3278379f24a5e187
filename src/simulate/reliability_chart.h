#pragma once

#include <span>
#include <string>
#include <vector>

#include "drawing/drawing.h"
#include "simulate/reliability.h"

namespace fettle {

/// Every word on the chart, in the reader's language.
struct ReliabilityWords {
  std::string title;
  std::string description;  // for those who cannot see it
  std::string chance_axis;
  std::string share_axis;
  std::string diagonal;  // what lies on it
  std::string counts;    // above the bars that count the first series
  std::string percent;   // behind a number: "%" or " %"
  std::vector<std::string> notes;
};

struct ReliabilitySeries {
  std::string name;
  Reliability reliability;
};

/// Stated chance across, share of good engines up: each bin of each series as a mark with its interval of 95 %, the
/// diagonal on which honest chances lie, and below how many engines each bin of the first series holds. Notes stand at
/// the side where there is room, else below. In pixels, laid out for `width`. Needs one to three series and a width of
/// at least 300, else InternalError. Kept by ReliabilityChart.MarksStandWhereTheBinsSay and
/// Charts.NothingLeavesThePaper.
[[nodiscard]] Drawing reliability_chart(std::span<const ReliabilitySeries> series, const ReliabilityWords& words,
                                        double width);

}  // namespace fettle
