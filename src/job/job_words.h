#pragma once

#include "catalogue/file_words.h"
#include "entry/typed_quantity.h"
#include "gauging/gauge_kit.h"
#include "gauging/part.h"
#include "gauging/studied_gauge.h"
#include "limits/limit.h"
#include "verdict/finding.h"
#include "verdict/rule.h"

namespace fettle {

// The words of job.toml and readings.csv, for reading and for writing.

inline constexpr WordTable<DecimalMark, 2> kMarkWords{{{"point", DecimalMark::point}, {"comma", DecimalMark::comma}}};
inline constexpr WordTable<TradeWords, 2> kTradeWords{{{"inch", TradeWords::inch}, {"metric", TradeWords::metric}}};
inline constexpr WordTable<UnitId, 2> kShownUnits{{{"mm", UnitId::millimetre}, {"in", UnitId::inch}}};
inline constexpr WordTable<NeedleSide, 2> kSides{{{"clockwise", NeedleSide::clockwise}, {"anticlockwise", NeedleSide::anticlockwise}}};
inline constexpr WordTable<Condition, 4> kConditions{{{"worn", Condition::worn},
                                               {"machined", Condition::machined},
                                               {"new", Condition::fresh},
                                               {"sleeved", Condition::sleeved}}};
inline constexpr WordTable<FindingWeight, 3> kWeights{{{"note", FindingWeight::note},
                                                {"needs-test", FindingWeight::needs_test},
                                                {"condemns", FindingWeight::condemns}}};
inline constexpr WordTable<LimitRole, 2> kLimitRoles{{{"service", LimitRole::service}, {"new", LimitRole::fresh}}};
inline constexpr WordTable<LimitSide, 2> kLimitSides{{{"at-most", LimitSide::at_most}, {"at-least", LimitSide::at_least}}};
inline constexpr WordTable<RuleKind, 2> kRuleKinds{{{"probability", RuleKind::probability}, {"reading", RuleKind::reading}}};
inline constexpr WordTable<TieRule, 2> kTieRules{
    {{"equal-is-within", TieRule::equal_is_within}, {"equal-is-beyond", TieRule::equal_is_beyond}}};
inline constexpr WordTable<StudyMethod, 2> kStudyMethods{{{"variances", StudyMethod::variances}, {"ranges", StudyMethod::ranges}}};
inline constexpr WordTable<RodsReach, 2> kRodsReach{
    {{"contact-free", RodsReach::contact_free}, {"middle-of-travel", RodsReach::middle_of_travel}}};

/// The origin of an error component of which nothing else was said.
inline constexpr std::string_view kStatedInTheJob = "stated in the job";

}  // namespace fettle
