#pragma once

#include "base/kept.h"
#include "gauging/sizes.h"
#include "limits/limit.h"
#include "verdict/judged_again.h"
#include "verdict/side_by_side.h"
#include "wire/json_values.h"

// Inside `wire` only: verdicts that stand beside another one on the same limit.
namespace fettle::json {

/// A limit under its own definition and under every other one of its word.
[[nodiscard]] Json side_by_side(const SideBySide& all, const Layout& layout, const Limit& limit, UnitId unit);
/// What a gauge that was found out of true did.
[[nodiscard]] Json judged_again(const JudgedAgain& again, const std::vector<PartOnBench>& parts, const std::vector<Kept<Reading>>& readings, UnitId unit);

}  // namespace fettle::json
