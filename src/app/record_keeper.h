#pragma once

#include <functional>
#include <memory>
#include <string>

#include "base/clock.h"
#include "base/result.h"
#include "store/salvaged_events.h"
#include "store/store.h"

namespace fettle {

/// The particular store, as the programs' main files hand it in: nothing else knows its name.
struct RecordKeeper {
  std::function<Result<std::unique_ptr<Store>>(const std::string& path, Clock& clock, bool create)> open;
  std::function<Problems(const std::string& path)> check_backup;  ///< empty: it may be put in the place of a record
  std::function<SalvagedEvents(const std::string& path)> salvage;  ///< what a damaged file still holds
};

}  // namespace fettle
