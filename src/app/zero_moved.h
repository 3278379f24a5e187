#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "job/job.h"

namespace fettle {

/// A place that tells whether the gauge moved early or late: the first or the last that was read under the setting.
struct TellingPlace {
  const Part* part;
  std::size_t cell;
};

/// A setting whose closing zero stands more than two divisions away from the opening one.
struct ZeroMoved {
  const Kept<Setting>* setting;
  Ratio by;                                                 ///< how much larger the master seems at the end, counts
  std::vector<std::pair<const Part*, std::size_t>> hang;    ///< how many readings of which part rest on it, in the order of the job
  std::vector<TellingPlace> again;                          ///< first and last, where nobody has read them since under another setting
};

/// Nothing: the setting is open, its zero stayed within two divisions, or nothing was read under it.
[[nodiscard]] std::optional<ZeroMoved> zero_moved(const Job& job, const Kept<Setting>& setting);

/// Of the setting, or, while it is open, of the one before it of the same gauge.
[[nodiscard]] std::optional<ZeroMoved> zero_moved_lately(const Job& job, const Kept<Setting>& setting);

}  // namespace fettle
