#pragma once

#include "catalogue/file_words.h"
#include "catalogue/gauge_preset.h"
#include "catalogue/words.h"
#include "gauging/gauge_kit.h"
#include "gauging/part.h"
#include "gauging/reading.h"
#include "job/events.h"
#include "limits/limit.h"
#include "verdict/finding.h"
#include "verdict/rule.h"

// Inside `wire` only: the words of the event log for the values of every enum in a payload. They never change, whatever
// the screen or the files of a folder call the same thing; where judgement.schema.json shows the value too, the word is
// the same.
namespace fettle::json {

/// Tag for choosing a table: words_of(For<Condition>{}).
template <class E>
struct For {};

inline constexpr WordTable<DecimalMark, 2> kMarkWords{{{"point", DecimalMark::point}, {"comma", DecimalMark::comma}}};
inline constexpr WordTable<TradeWords, 2> kTradeWords{{{"inch", TradeWords::inch}, {"metric", TradeWords::metric}}};
inline constexpr WordTable<NeedleSide, 2> kSideWords{
    {{"clockwise", NeedleSide::clockwise}, {"anticlockwise", NeedleSide::anticlockwise}}};
inline constexpr WordTable<Dimension, 7> kQuantityWords{{{"length", Dimension::length},
                                                          {"angle", Dimension::angle},
                                                          {"force", Dimension::force},
                                                          {"torque", Dimension::torque},
                                                          {"pressure", Dimension::pressure},
                                                          {"volume", Dimension::volume},
                                                          {"mass", Dimension::mass}}};
inline constexpr WordTable<StationRole, 5> kRoleWords{{{"first", StationRole::first},
                                                       {"middle", StationRole::middle},
                                                       {"last", StationRole::last},
                                                       {"inner", StationRole::inner},
                                                       {"reference", StationRole::reference}}};
inline constexpr WordTable<StepKind, 3> kStepWords{
    {{"standard", StepKind::standard}, {"offset", StepKind::offset}, {"unknown", StepKind::unknown}}};
inline constexpr WordTable<Condition, 4> kConditionWords{{{"worn", Condition::worn},
                                                          {"machined", Condition::machined},
                                                          {"new", Condition::fresh},
                                                          {"sleeved", Condition::sleeved}}};
inline constexpr WordTable<FindingWeight, 3> kWeightWords{
    {{"note", FindingWeight::note}, {"needs-test", FindingWeight::needs_test}, {"condemns", FindingWeight::condemns}}};
inline constexpr WordTable<ReadingFlag, 4> kFlagWords{{{"none", ReadingFlag::none},
                                                       {"deposit", ReadingFlag::deposit},
                                                       {"damage", ReadingFlag::damage},
                                                       {"mistake", ReadingFlag::mistake}}};
inline constexpr WordTable<LimitRole, 2> kLimitRoleWords{{{"new", LimitRole::fresh}, {"service", LimitRole::service}}};
inline constexpr WordTable<LimitSide, 2> kLimitSideWords{
    {{"at-most", LimitSide::at_most}, {"at-least", LimitSide::at_least}}};
inline constexpr WordTable<RuleKind, 2> kRuleWords{
    {{"probability", RuleKind::probability}, {"reading", RuleKind::reading}}};
inline constexpr WordTable<TieRule, 2> kTieWords{
    {{"equal-is-within", TieRule::equal_is_within}, {"equal-is-beyond", TieRule::equal_is_beyond}}};
inline constexpr WordTable<RodsReach, 2> kReachWords{
    {{"contact-free", RodsReach::contact_free}, {"middle-of-travel", RodsReach::middle_of_travel}}};
inline constexpr WordTable<ErrorScope, 4> kScopeWords{{{"master", ErrorScope::master},
                                                       {"setting", ErrorScope::setting},
                                                       {"round", ErrorScope::round},
                                                       {"reading", ErrorScope::reading}}};
inline constexpr WordTable<ErrorShape, 3> kShapeWords{
    {{"normal", ErrorShape::normal}, {"rectangular", ErrorShape::rectangular}, {"triangular", ErrorShape::triangular}}};
inline constexpr WordTable<ComponentUse, 3> kUseWords{{{"always", ComponentUse::always},
                                                       {"read-on-part", ComponentUse::read_on_part},
                                                       {"lent-as-master", ComponentUse::lent_as_master}}};
inline constexpr WordTable<MasterKind, 3> kMasterWords{
    {{"micrometer", MasterKind::micrometer}, {"ring", MasterKind::ring}, {"blocks", MasterKind::blocks}}};
inline constexpr WordTable<Family, 7> kCharacteristicWords{{{"size", Family::size},
                                                            {"out-of-round", Family::out_of_round},
                                                            {"taper", Family::taper},
                                                            {"shape", Family::shape},
                                                            {"wear", Family::wear},
                                                            {"clearance", Family::clearance},
                                                            {"figure", Family::figure}}};
inline constexpr WordTable<UnitFamily, 2> kFamilyWords{{{"metric", UnitFamily::metric}, {"inch", UnitFamily::inch}}};
inline constexpr WordTable<Decided, 3> kDecidedWords{
    {{"as-printed", Decided::as_printed}, {"put-right", Decided::put_right}, {"ask", Decided::ask}}};
inline constexpr WordTable<StudyMethod, 2> kStudyWords{{{"variances", StudyMethod::variances}, {"ranges", StudyMethod::ranges}}};
inline constexpr WordTable<TakenWord, 2> kTakenWords{{{"within", TakenWord::within}, {"beyond", TakenWord::beyond}}};
inline constexpr WordTable<VerdictWord, 4> kVerdictWords{{{"within", VerdictWord::within},
                                                          {"beyond", VerdictWord::beyond},
                                                          {"too-close", VerdictWord::too_close},
                                                          {"not-judged", VerdictWord::not_judged}}};
inline constexpr WordTable<Mark, 5> kTrustWords{{{"seen", Mark::seen},
                                                 {"recomputed", Mark::recomputed},
                                                 {"memory", Mark::memory},
                                                 {"common-practice", Mark::common_practice},
                                                 {"worked-out", Mark::worked_out}}};

constexpr const auto& words_of(For<DecimalMark>) { return kMarkWords; }
constexpr const auto& words_of(For<TradeWords>) { return kTradeWords; }
constexpr const auto& words_of(For<NeedleSide>) { return kSideWords; }
constexpr const auto& words_of(For<StationRole>) { return kRoleWords; }
constexpr const auto& words_of(For<Dimension>) { return kQuantityWords; }
constexpr const auto& words_of(For<StepKind>) { return kStepWords; }
constexpr const auto& words_of(For<Condition>) { return kConditionWords; }
constexpr const auto& words_of(For<FindingWeight>) { return kWeightWords; }
constexpr const auto& words_of(For<FindingSort>) { return kFindingSorts; }
constexpr const auto& words_of(For<FindingTest>) { return kFindingTests; }
constexpr const auto& words_of(For<TestOutcome>) { return kTestOutcomes; }
constexpr const auto& words_of(For<StripAnswer>) { return kStripAnswers; }
constexpr const auto& words_of(For<QuestionAnswer>) { return kQuestionAnswers; }
constexpr const auto& words_of(For<MeasuredWhen>) { return kMeasuredWhen; }
constexpr const auto& words_of(For<ReadingFlag>) { return kFlagWords; }
constexpr const auto& words_of(For<LimitRole>) { return kLimitRoleWords; }
constexpr const auto& words_of(For<LimitSide>) { return kLimitSideWords; }
constexpr const auto& words_of(For<RuleKind>) { return kRuleWords; }
constexpr const auto& words_of(For<TieRule>) { return kTieWords; }
constexpr const auto& words_of(For<RodsReach>) { return kReachWords; }
constexpr const auto& words_of(For<ErrorScope>) { return kScopeWords; }
constexpr const auto& words_of(For<ErrorShape>) { return kShapeWords; }
constexpr const auto& words_of(For<ComponentUse>) { return kUseWords; }
constexpr const auto& words_of(For<MasterKind>) { return kMasterWords; }
constexpr const auto& words_of(For<Family>) { return kCharacteristicWords; }
constexpr const auto& words_of(For<UnitFamily>) { return kFamilyWords; }
constexpr const auto& words_of(For<Decided>) { return kDecidedWords; }
constexpr const auto& words_of(For<StudyMethod>) { return kStudyWords; }
constexpr const auto& words_of(For<TakenWord>) { return kTakenWords; }
constexpr const auto& words_of(For<VerdictWord>) { return kVerdictWords; }
constexpr const auto& words_of(For<Mark>) { return kTrustWords; }

}  // namespace fettle::json
