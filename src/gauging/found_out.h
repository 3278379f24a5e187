#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/kept.h"
#include "base/problem.h"
#include "gauging/known_setting.h"
#include "gauging/reading.h"
#include "gauging/source_list.h"

namespace fettle {

/// A gauge was found out of true: dropped, or a check that failed. What it read since it was last known good is in doubt.
struct FoundOut {
  std::string gauge;                              ///< a micrometer, ring, blocks, caliper ...; of a gauge that is set on a master only may_be_off
  std::optional<std::string> last_good;           ///< the last setting under which it was known good; nothing: none was
  std::optional<std::string> good_again;          ///< the first setting after it was put right; nothing: not used since
  std::optional<TypedQuantity> shows_too_much;    ///< what the check showed, by how much it reads (a ring: is marked) too large ...
  std::optional<TypedQuantity> may_be_off;        ///< ... or, where nobody can tell, how far it may be off either way
  std::string what;                               ///< what happened, as the person says it
  bool operator==(const FoundOut&) const = default;
};

/// What gauges that were found out of true do to readings. A gauge went off at one moment that nobody saw: as likely before the first of
/// the n times it was used since it was good, between any two, or after the last. A use is a reading, by its order; where it lent its size
/// to another gauge, that setting. Readings of a setting whose order is not known have their places among themselves at random.
///
/// D, how far it went off, has mean d and standard uncertainty u: what the check showed beyond the zero error that is recorded for it, to
/// half of the last typed digit (rectangular); or nothing, and b/√3 where only a bound b is known. The k-th use is moved by − d·p,
/// p = k/(n + 1), with the covariance (d² + u²)·min(p, p') − d²·p·p' of such a step.
class OutOfTrue {
 public:
  /// Problems: gauging.found_out_unknown, .found_out_is_set (more than a bound for a gauge that is set on a master), .found_out_setting
  /// (last_good or good_again is no setting that it was used in), .found_out_order, .found_out_how_far (both figures or neither, or none
  /// above nothing), .found_out_recorded (what was shown is what `reads` says), .found_out_twice (the same setting in doubt by two).
  /// `settings` in the order they were made. Holds on to all of them.
  OutOfTrue(const std::vector<Kept<FoundOut>>& found_out, const std::vector<Kept<Setting>>& settings, const std::vector<Kept<Reading>>& readings,
            const KnownGauges& gauges, Problems& problems);

  /// Adds to the size of a reading what it has in doubt.
  void correct(const Kept<Reading>& reading, SourceList& sources, Size& size) const;
  [[nodiscard]] bool told(const std::string& gauge) const { return told_.contains(gauge); }  ///< of this gauge something was found out

 private:
  struct Step {
    const FoundOut* found;
    std::string source;   ///< how the ids of its sources begin
    double off;           ///< d
    double uncertainty;   ///< u
    std::size_t uses;     ///< n
  };
  struct Use {
    std::size_t step;
    std::size_t first;  ///< counted from 1; the same as `last` where its place is known
    std::size_t last;
  };
  void add_uses(std::size_t step, const std::vector<Kept<Setting>>& settings, const std::vector<Kept<Reading>>& readings);
  void move(const Use& use, const std::string& reading, SourceList& sources, Size& size) const;

  std::vector<Step> steps_;
  std::map<std::string, std::vector<Use>> lent_;  ///< by setting in which it was the master
  std::map<std::string, std::vector<Use>> read_;  ///< by event of the reading that it took
  std::set<std::string> told_;
};

/// Settings in which the gauge measured or lent its size after it was last known good and before it was put right, in their order.
[[nodiscard]] std::vector<std::string> settings_in_doubt(const FoundOut& found, const std::vector<Kept<Setting>>& settings);

}  // namespace fettle
