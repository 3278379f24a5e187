#pragma once

#include <string>
#include <vector>

#include "gauging/found_out.h"
#include "verdict/verdict.h"

namespace fettle {

/// What a gauge that was found out of true did to the job: what rests on it since it was last known good, and every verdict on that,
/// as it was and as it is with the wider doubt.
struct JudgedAgain {
  FoundOut found;
  std::vector<std::string> settings;  ///< in doubt, in their order
  std::vector<std::string> readings;  ///< event ids, in the order of the job
  std::vector<std::string> parts;     ///< that were read under those settings, and assemblies of which they are members
  struct Twice {
    Verdict before;  ///< as if nobody had found it out
    Verdict now;
  };
  std::vector<Twice> verdicts;  ///< of those parts, and others of which the word changed
};

}  // namespace fettle
