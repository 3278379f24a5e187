#pragma once

#include <string_view>
#include <vector>

#include "base/result.h"
#include "catalogue/definition.h"
#include "catalogue/gauge_preset.h"
#include "catalogue/kind.h"
#include "catalogue/material.h"
#include "catalogue/words.h"

namespace fettle {

inline constexpr WordTable<Mark, 5> kMarks{{{"seen", Mark::seen},
                                            {"recomputed", Mark::recomputed},
                                            {"memory", Mark::memory},
                                            {"common-practice", Mark::common_practice},
                                            {"worked-out", Mark::worked_out}}};
inline constexpr WordTable<Feature, 3> kFeatures{
    {{"inside", Feature::inside}, {"outside", Feature::outside}, {"figure", Feature::figure}}};
inline constexpr WordTable<WearPattern, 4> kWearPatterns{{{"none", WearPattern::none},
                                                          {"from-first", WearPattern::from_first},
                                                          {"both-ends", WearPattern::both_ends},
                                                          {"even", WearPattern::even}}};
inline constexpr WordTable<NotWorn, 7> kNotWorn{{{"single-place", NotWorn::single_place},
                                                 {"reckoned", NotWorn::reckoned},
                                                 {"nothing-runs", NotWorn::nothing_runs},
                                                 {"no-diameter", NotWorn::no_diameter},
                                                 {"separate-figures", NotWorn::separate_figures},
                                                 {"built-to-shape", NotWorn::built_to_shape},
                                                 {"not-said", NotWorn::not_said}}};

struct GaugesFile {
  std::vector<GaugePreset> presets;
  std::vector<ErrorComponent> temperature;  ///< exactly one if nothing is wrong
};

/// One reader for each file of the catalogue. Each gives what it could read and adds every problem.
[[nodiscard]] std::vector<Material> read_materials(std::string_view text, Problems& problems);
[[nodiscard]] std::vector<Kind> read_kinds(std::string_view text, const std::string& file, const std::vector<Material>& materials, Problems& problems);
/// Of an empty text: none. Every kind at most once, in one section.
[[nodiscard]] std::vector<KindSection> read_sections(std::string_view text, const std::vector<Kind>& kinds, Problems& problems);
[[nodiscard]] GaugesFile read_gauges(std::string_view text, Problems& problems);
/// Gauges of somebody's own: presets only.
[[nodiscard]] std::vector<GaugePreset> read_own_gauges(std::string_view text, Problems& problems);
[[nodiscard]] std::vector<Definition> read_definitions(std::string_view text, const std::string& file, Problems& problems);

}  // namespace fettle
