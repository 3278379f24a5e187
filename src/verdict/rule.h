#pragma once

#include <string>
#include <string_view>

#include "entry/typed_quantity.h"

namespace fettle {

/// probability: within when the doubt leaves at least `level` on the good side, beyond when it leaves at least `level` on the other
/// (JCGM 106, 8.3; a guard band on either side of the limit). reading: what was measured against the limit, no doubt counted
/// (simple acceptance).
enum class RuleKind { probability, reading };

/// What "equal to the limit" is. Books say within; some say otherwise.
enum class TieRule { equal_is_within, equal_is_beyond };

struct Rule {
  RuleKind kind;
  Ratio level;  ///< between 1/2 and 1, of `probability`
  TieRule tie;
  bool operator==(const Rule&) const = default;
};

/// 95 %, equal is within: the rule where nothing else was chosen.
[[nodiscard]] inline Rule usual_rule() {
  return {RuleKind::probability, Ratio::of(95, 100), TieRule::equal_is_within};
}

[[nodiscard]] inline std::string_view rule_kind_name(RuleKind kind) {
  switch (kind) {
    case RuleKind::probability: return "probability";
    case RuleKind::reading: return "reading";
  }
  return "";
}

[[nodiscard]] inline std::string_view tie_rule_name(TieRule tie) {
  switch (tie) {
    case TieRule::equal_is_within: return "equal-is-within";
    case TieRule::equal_is_beyond: return "equal-is-beyond";
  }
  return "";
}

}  // namespace fettle
