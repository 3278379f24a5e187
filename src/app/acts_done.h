#pragma once

#include <string>
#include <vector>

#include "app/recorded_job.h"

namespace fettle {

/// One event of a job in words, for taking it back.
struct ActInWords {
  std::string event;
  std::string at;     ///< when it was made; where it does not say, when it was accepted
  std::string who;
  Message words;
  bool standing;      ///< neither withdrawn nor corrected
};

/// The newest first, `most` at most.
[[nodiscard]] std::vector<ActInWords> acts_done(const RecordedJob& recorded, std::size_t most);

}  // namespace fettle
