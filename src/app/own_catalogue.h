#pragma once

#include <string>

#include "base/problem.h"

namespace fettle {

/// Adds the kinds, definitions, gauges and materials of a folder (kinds.toml, definitions.toml, gauges.toml, materials.toml; one at least) to
/// the built-in catalogue for this run of the program. For the program's start, before anything asks for the catalogue. Problems:
/// app.no_folder, app.no_catalogue, and what the files refuse; then nothing is added.
[[nodiscard]] Problems use_own_catalogue(const std::string& folder);

}  // namespace fettle
