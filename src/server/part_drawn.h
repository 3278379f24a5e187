#pragma once

#include <optional>
#include <string>

#include "app/judge_job.h"
#include "server/page_words.h"

namespace fettle {

struct DrawnFor {
  const PageWords& words;
  UnitId unit;
  std::string id;  ///< of the drawing in the page
};

/// The wear of a worn part, the gaps of a face, the run-out round a clock, as SVG for a page. Nothing for all else: an assembly has places of
/// others, a machined part no wear.
[[nodiscard]] std::optional<std::string> part_drawn(const JudgedJob& judged, const PartOnBench& part, const DrawnFor& drawn);

}  // namespace fettle
