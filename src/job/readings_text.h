#pragma once

#include <string>
#include <unordered_map>

#include "job/job.h"

namespace fettle {

/// Who entered something, and when, as typed; either may be empty.
struct EnteredBy {
  std::string who;
  std::string when;
  bool operator==(const EnteredBy&) const = default;
};
using EnteredByEvent = std::unordered_map<std::string, EnteredBy>;

/// readings.csv of a job: one row a reading, in the order of settings, rounds, order within them and places, whatever order they came in.
/// A column that would be empty in every row is left out. Readings that were corrected stand below as comments.
[[nodiscard]] std::string readings_text(const Job& job, const EnteredByEvent& entered);

}  // namespace fettle
