#pragma once

#include <vector>

#include "base/kept.h"
#include "gauging/sizes.h"
#include "verdict/verdict.h"

namespace fettle {

/// A verdict with the limit it was made against.
struct JudgedLimit {
  const Limit* limit;
  const Verdict* verdict;
};

/// What follows for the part: the eye outranks the gauge; one service limit beyond is enough; one too close leaves it open; what was
/// not read or has no limit is not judged. As new: inside the manufacturing limits as well. A limit of which the book does not say the definition
/// holds if it holds under all, is beyond if it is beyond under all, and is too close where they differ. What rests on an open question of the proof is named. Where rules of thumb decide, the state says so
/// and what it would be without them.
[[nodiscard]] PartState state_of(const PartOnBench& part, const std::vector<JudgedLimit>& judged,
                                 const std::vector<const Finding*>& findings);

}  // namespace fettle
