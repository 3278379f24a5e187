#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/kept.h"
#include "base/problem.h"
#include "catalogue/kind.h"
#include "gauging/found_out.h"
#include "gauging/gauge.h"
#include "gauging/part.h"
#include "gauging/reading.h"
#include "gauging/setting.h"
#include "gauging/size_set.h"
#include "gauging/studied_gauge.h"

namespace fettle {

/// A part with what its kind says about it.
struct PartOnBench {
  Part part;
  Feature feature;
  Layout layout;
  Ratio expansion_per_celsius;
  KindWear wear = {};
  bool operator==(const PartOnBench&) const = default;
};

/// Nothing if there is no such part.
[[nodiscard]] const PartOnBench* find_part(const std::vector<PartOnBench>& parts, const std::string& id);

struct GaugingInput {
  const std::vector<PartOnBench>& parts;
  const std::vector<Kept<Gauge>>& gauges;
  const std::vector<Kept<Setting>>& settings;
  const std::vector<Kept<Reading>>& readings;  ///< current ones: superseded readings are left out by the caller
  const std::vector<Kept<FoundOut>>& found_out;
  const std::vector<GaugePreset>& presets;
  ErrorComponent temperature;                  ///< difference between part and master where it was not recorded
  Ratio gauge_expansion_per_celsius;           ///< of masters and micrometers
  const std::vector<Kept<StudiedGauge>>* studies = nullptr;             ///< nothing: none
  const std::map<std::string, std::string>* entered_by = nullptr;       ///< who entered a reading, by its event; nothing: nobody says so
};

struct Gauged {
  SizeSet set;
  std::vector<Message> notices;  ///< what a person should know, in no case a reason to stop
  Problems problems;             ///< if there is any, `set` holds only what could be computed
};

/// From settings and readings to sizes at 20 °C, linear in named error sources (JCGM 100, 5.1.2). Lengths exact in counts; estimates
/// in mm; other quantities in their base units. Problems beside those of settings and gauges: gauging.unknown_part, .unknown_setting,
/// .wrong_feature, .measures_other, .other_quantity and others. Flagged readings are left out. The same input gives the same result whatever order the readings stand in.
[[nodiscard]] Gauged sizes_from(const GaugingInput& input);

}  // namespace fettle
