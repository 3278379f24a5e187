#pragma once

#include <optional>
#include <vector>

#include "gauging/sizes.h"
#include "job/job.h"

namespace fettle {

/// What of a plan of places makes no sense, a sentence each: a station at the ports of a two-stroke bore, a taper limit over one height, an
/// out-of-round limit over one direction, a size limit of a bore that wears most at its first station without that station. By part and limit
/// kind, each sentence once.
[[nodiscard]] std::vector<Message> plan_sense(const Job& job, const std::vector<PartOnBench>& parts);

/// Between which depths below the face the ports lie, mm: from the highest upper edge that was read to where the crown stands at bottom dead
/// centre, less `kAboveBottomDeadCentre`; without a lower end where the stroke was not read. Nothing where no port's edge was read.
struct PortWindow {
  double from_mm;
  std::optional<double> to_mm;
  [[nodiscard]] bool holds(double depth_mm) const { return depth_mm >= from_mm && (!to_mm || depth_mm <= *to_mm); }
};
[[nodiscard]] std::optional<PortWindow> port_window(const Job& job);

/// Whether a gauge may drop into a port there. In a job with ports whose edges were not read: everywhere but at the first station.
[[nodiscard]] bool may_lie_at_port(const Job& job, const Station& station);

}  // namespace fettle
