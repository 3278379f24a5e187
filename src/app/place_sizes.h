#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "gauging/known_setting.h"
#include "gauging/sizes.h"
#include "job/job.h"

namespace fettle {

/// One size, with how sure it is. mm; doubts are standard uncertainties.
struct SizeThere {
  std::string event;
  std::string part;
  std::size_t cell;
  Ratio counts;
  double mm;
  double doubt;             ///< everything counted
  double doubt_of_reading;  ///< what two sizes of one setting do not share
};

[[nodiscard]] SizeThere size_there(const Size& size, const std::vector<ErrorSource>& sources);

/// Sizes of a few readings of a job, without the rest of it: quick enough to be asked at every reading. Zeros that moved are not taken off.
class PlaceSizes {
 public:
  /// `part`, with its members if it has any, and the parts of its kind. Needs kinds and materials in the catalogue. Holds on to `job`.
  PlaceSizes(const Job& job, const Part& part);

  [[nodiscard]] const PartOnBench& part() const { return parts_.front(); }
  /// The part, its members, or those of its kind.
  [[nodiscard]] const std::vector<PartOnBench>& parts() const { return parts_; }
  /// Those that can be computed, with their sources; what is wrong with the others is added to `problems`.
  [[nodiscard]] SizeSet set_of(const std::vector<Kept<Reading>>& readings, Problems& problems) const;
  /// Those that can be computed; what is wrong with the others is added to `problems`.
  [[nodiscard]] std::vector<SizeThere> of(const std::vector<Kept<Reading>>& readings, Problems& problems) const;

 private:
  const Job& job_;
  std::vector<PartOnBench> parts_;
};

/// The setting with its gauges looked up; nothing, and its problems, if it cannot be used.
struct SettingAtHand {
  std::map<std::string, KnownGauge> gauges;
  std::optional<KnownSetting> known;  ///< points into `gauges` and into the job
};
[[nodiscard]] SettingAtHand setting_at_hand(const Job& job, const Kept<Setting>& setting, Problems& problems);

}  // namespace fettle
