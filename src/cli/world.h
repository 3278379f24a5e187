#pragma once

#include "app/record_keeper.h"
#include "app/server_keeper.h"
#include "base/clock.h"
#include "base/progress.h"

namespace fettle {

/// What the program's main file hands in of the world outside.
struct World {
  Progress& progress;
  Clock& clock;
  RecordKeeper records;
  ServerKeeper serve;
  std::function<void(const std::string& line)> say;  ///< to the person at once, before the run ends
};

}  // namespace fettle
