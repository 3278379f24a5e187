#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/judge_job.h"
#include "text/sentence.h"
#include "wire/asked_again_json.h"

namespace fettle {

/// A question about readings of a finished job. Lengths in mm.
struct MistakeAsked {
  std::vector<std::string> readings;  ///< event ids: one; several that seem exchanged, or all under a setting
  std::string part;
  std::string station;                ///< of the first
  std::string direction;
  std::string setting;
  std::string mistake;                ///< code: "needle-side"; text keys "advice.slip." and "advice.why." + it
  double chance;                      ///< that it is a mistake, of whatever kind
  std::optional<double> shown_mm;     ///< of one reading
  std::optional<double> expected_mm;  ///< from all others; nothing where there is no model of wear
  std::optional<double> expected_sd_mm;
  std::vector<std::pair<std::string, double>> by_kind;  ///< share of each kind among mistakes, greatest first; empty without a model
  Message sentence;
  bool put_off;                       ///< a person said: later
};

/// Weighs every reading of a judged job against the mistakes that hands make, as `understand` does while they arrive but all together; those
/// of which a person said that they stand are not asked about. In the order of the groups, likeliest first. A reading of a place that was read
/// again since is asked about as long as it counts.
[[nodiscard]] std::vector<MistakeAsked> mistakes_asked(const JudgedJob& judged);

/// The same in words. `position`: where the log of the job ends, 0 of a folder.
[[nodiscard]] AskedAgainPage asked_again_page(const JudgedJob& judged, const std::vector<MistakeAsked>& asked, std::int64_t position, Language language);

}  // namespace fettle
