#pragma once

#include <optional>
#include <string>
#include <vector>

#include "verdict/judge.h"

namespace fettle {

/// What other limits do to a judgement. Everything that differs is listed, and nothing else.
struct LimitsChanged {
  struct LimitTwice {
    std::optional<Limit> before;  ///< nothing: it is new
    std::optional<Limit> now;     ///< nothing: it is gone
  };
  struct VerdictTwice {
    std::string part;
    std::string limit;
    std::optional<Verdict> before;  ///< nothing: there was none
    std::optional<Verdict> now;
    LimitRole role;
    [[nodiscard]] bool other_word() const { return !before || !now || before->word != now->word; }
  };
  struct StateTwice {
    std::string part;
    StateWord before;
    StateWord now;
  };

  std::vector<LimitTwice> limits;      ///< in the order of the limits as they are, then new ones
  std::vector<VerdictTwice> verdicts;  ///< those with another word first
  std::vector<StateTwice> states;      ///< of parts whose word is another
  VerdictWord engine_before;
  VerdictWord engine_now;
};

/// The limits of a job with what was judged by them.
struct LimitsWithJudgement {
  const std::vector<Kept<Limit>>& limits;
  const Judgement& judgement;
};

/// Compares two judgements of one job. A verdict differs if any word or figure of it does: its word, bound, figure as measured, chance, forecast, estimate,
/// distance to the limit, reasons or remarks.
[[nodiscard]] LimitsChanged limits_changed(const LimitsWithJudgement& before, const LimitsWithJudgement& now);

}  // namespace fettle
