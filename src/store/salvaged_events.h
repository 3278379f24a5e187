#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "store/accepted.h"

namespace fettle {

/// Positions of a job, from first to last, whose events were not found.
struct MissingEvents {
  std::string job;
  std::int64_t first;
  std::int64_t last;
  bool operator==(const MissingEvents&) const = default;
};

struct SalvagedEvents {
  std::vector<AcceptedEvent> events;    ///< by job, then by position; each once
  std::vector<MissingEvents> missing;   ///< by job, then by position
};

}  // namespace fettle
