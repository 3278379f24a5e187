#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "job/job.h"
#include "verdict/setting_up.h"

namespace fettle {

struct SetGaugeAsked {
  std::string gauge;
  std::string what_for;               ///< id of a part or of a kind
  std::optional<std::string> size;    ///< as typed; nothing: the standard size of the kind, moved by the part's step
  std::optional<std::string> master;  ///< nothing: the only one that fits
  std::optional<std::string> set = {}; ///< what a micrometer was really set to, as typed; nothing: the nearest line
};

/// How to set a gauge of the job for a part or a kind of part. Problems: app.set_unknown_gauge, .set_not_a_comparison, .set_for_unknown,
/// .set_size_positive, .set_no_size, .set_step_unknown, .set_no_master, .set_which_master, .set_master_unfit, gauging.wrong_feature,
/// those of know_gauge, of the typed size and of set_up.
[[nodiscard]] Result<SettingUp> set_gauge(const Job& job, const SetGaugeAsked& asked);

/// The size to set to, whether or not there is a master for it; nothing: nobody knows it, or it cannot be read.
[[nodiscard]] std::optional<Length> size_to_set(const Job& job, const SetGaugeAsked& asked);

/// Gauges of the job that can lend this size: rings and blocks, micrometers in whose range it lies. Nothing known of the size: all that can
/// lend any.
[[nodiscard]] std::vector<const Gauge*> masters_for(const Job& job, const std::optional<Length>& size);

}  // namespace fettle
