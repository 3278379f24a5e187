#pragma once

#include "app/record_keeper.h"
#include "base/clock.h"
#include "base/progress.h"

namespace fettle {

/// What the program's main file hands in of the world outside.
struct World {
  Progress& progress;
  Clock& clock;
  RecordKeeper records;
};

}  // namespace fettle
