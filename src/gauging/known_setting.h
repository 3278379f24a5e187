#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/kept.h"
#include "base/problem.h"
#include "gauging/gauge.h"
#include "gauging/setting.h"
#include "gauging/size_set.h"

namespace fettle {

using KnownGauges = std::map<std::string, KnownGauge>;

/// A look at the zero with its figures made exact.
struct KnownCheck {
  std::string round;
  std::int64_t after_order;
  Ratio difference;  ///< how much larger the master seemed than at the setting, counts
};

/// A setting with its gauges looked up and its figures made exact.
struct KnownSetting {
  const Setting* setting;
  const KnownGauge* gauge;
  const KnownGauge* master;                ///< nothing for a direct gauge
  Length master_size;                      ///< really set, at 20 °C, zero error taken off; zero for a direct gauge
  int per_clockwise;                       ///< +1, −1; 0 while the needle sense is not known
  Ratio opening_clockwise;                 ///< counts
  std::optional<Ratio> closing_difference; ///< how much larger the master seems at the end, counts; nothing: not checked
  std::optional<Ratio> master_temperature; ///< °C
  std::vector<Ratio> zeros_clockwise = {}; ///< counts, where the zero was found several times; `opening_clockwise` is their mean
  std::vector<KnownCheck> checks = {};     ///< as they were typed
};

/// Clockwise needle travel in counts of a text read off a dial: divisions, or a length with a needle side.
[[nodiscard]] std::optional<Ratio> clockwise_counts(const TypedQuantity& typed, std::optional<Length> division);

/// How far the contact of a comparison gauge goes; where its preset does not say, as far as any of the catalogue.
[[nodiscard]] Length travel_of(const KnownGauge& gauge);

/// Whether a part or a master could be that warm in a workshop, °C.
[[nodiscard]] bool is_of_a_workshop(const Ratio& temperature);

/// Looks up and checks one setting. Problems: gauging.unknown_gauge, .master_missing, .master_unknown, .not_a_master, .set_missing,
/// .set_outside_range, .sense_missing, .division_missing, .set_and_marked, .locked_no_micrometer, .locked_and_set,
/// .beyond_travel (a zero where no needle comes), .check_order (a check before reading 0), .zeros_count (a list of zeros that is too short or too long), .not_for_direct (a master, a set size or needle zeros on a direct gauge).
[[nodiscard]] std::optional<KnownSetting> know_setting(const Kept<Setting>& setting, const KnownGauges& gauges,
                                                       const Place& place, Problems& problems);

/// The line on which something of the setting was typed, as far as it is known.
[[nodiscard]] Place place_of(const Setting& setting);

/// What was really set against what was wanted, and the nearest that the thimble shows.
[[nodiscard]] MasterReport report_master(const KnownSetting& known);

}  // namespace fettle
