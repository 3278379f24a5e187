#pragma once

#include <string>
#include <vector>

#include "simulate/engine.h"

namespace fettle {

struct FolderFile {
  std::string name;
  std::string text;
};

/// The engine as the files that a person could have written: job.toml, readings.csv; and truth.csv beside them, which
/// the program does not read: columns what, part, station, direction, value, unit. Importing the first two gives the
/// engine's job, up to event ids.
[[nodiscard]] std::vector<FolderFile> engine_folder(const SimulatedEngine& engine);

}  // namespace fettle
