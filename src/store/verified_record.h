#pragma once

#include <cstdint>
#include <vector>

#include "store/store.h"

namespace fettle {

/// What was looked at in a record, and every fault that was found.
struct VerifiedRecord {
  std::int64_t jobs;
  std::int64_t events;
  std::int64_t files;
  std::int64_t judgements;
  std::vector<StoreFault> faults;
  bool stopped;  ///< before all was looked at
};

}  // namespace fettle
