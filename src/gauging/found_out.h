#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/kept.h"
#include "base/problem.h"
#include "gauging/known_setting.h"
#include "gauging/source_list.h"

namespace fettle {

/// A gauge was found out of true: dropped, or a check that failed. What it read since it was last known good is in doubt.
struct FoundOut {
  std::string gauge;                              ///< a micrometer, ring, blocks, caliper ...; not one that is set on a master
  std::optional<std::string> last_good;           ///< the last setting under which it was known good; nothing: none was
  std::optional<std::string> good_again;          ///< the first setting after it was put right; nothing: not used since
  std::optional<TypedQuantity> shows_too_much;    ///< what the check showed, by how much it reads (a ring: is marked) too large ...
  std::optional<TypedQuantity> may_be_off;        ///< ... or, where nobody can tell, how far it may be off either way
  std::string what;                               ///< what happened, as the person says it
  bool operator==(const FoundOut&) const = default;
};

/// What gauges that were found out of true do to the readings of each setting. A gauge went off at one moment that nobody saw: as likely
/// before any of its n settings since it was good, as after the last of them. Where it was seen how far (d), the k-th setting is moved by
/// d·k/(n + 1), and its doubt is that of the step (see ClosingZero; variance d²·p·(1 − p), p = k/(n + 1)). Where only a bound b is known,
/// d is rectangular in ±b, nothing is moved, and the doubt grows as a walk: variance b²/3·k/(n + 1).
class OutOfTrue {
 public:
  /// Problems: gauging.found_out_unknown, .found_out_is_set (a gauge that is set on a master), .found_out_setting (last_good or good_again is no setting that it was used in, or they come in the wrong order),
  /// .found_out_how_far (both figures or neither, or none above nothing), .found_out_twice. `settings` in the order they were made.
  OutOfTrue(const std::vector<Kept<FoundOut>>& found_out, const std::vector<Kept<Setting>>& settings, const KnownGauges& gauges,
            Problems& problems);

  /// Adds to the size of a reading what its setting has in doubt.
  void correct(const std::string& setting, SourceList& sources, Size& size) const;

 private:
  struct Use {
    const FoundOut* found;
    std::size_t k;         ///< of n, counted from 1
    std::size_t settings;  ///< n
  };
  std::map<std::string, std::vector<Use>> by_setting_;
};

/// Settings in which the gauge measured or lent its size after it was last known good and before it was put right, in their order.
[[nodiscard]] std::vector<std::string> settings_in_doubt(const FoundOut& found, const std::vector<Kept<Setting>>& settings);

}  // namespace fettle
