#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gauging/found_out.h"
#include "verdict/verdict.h"

namespace fettle {

/// What a gauge that was found out of true did to the job: what rests on it since it was last known good, and every verdict on that,
/// as it was before this was found out (and all else as it is) and as it is with the wider doubt.
struct JudgedAgain {
  /// Figures in mm, or in the base unit of what was read.
  struct Figures {
    double moved;     ///< how far the estimate went
    double u_before;  ///< standard uncertainty
    double u_now;
  };
  struct InDoubt {
    std::string reading;             ///< event id
    std::optional<Figures> figures;  ///< nothing: it was flagged and enters no size
  };
  struct Twice {
    Verdict before;
    Verdict now;
  };
  struct StateTwice {
    std::string part;
    StateWord before;
    StateWord now;
  };

  FoundOut found;
  std::vector<std::string> settings;  ///< in doubt, in their order
  std::vector<InDoubt> readings;      ///< taken under them, in the order of the job
  std::vector<std::string> parts;     ///< that were read under those settings, and assemblies of which they are members
  std::vector<Twice> verdicts;        ///< of those parts, and others of which the word changed; changed words first
  std::vector<StateTwice> states;     ///< of the parts that have one of these verdicts
  VerdictWord engine_before;
  VerdictWord engine_now;
};

}  // namespace fettle
