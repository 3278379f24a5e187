#include "job/fold.h"

#include <gtest/gtest.h>

namespace fettle {
namespace {

TypedQuantity typed(const std::string& text) {
  return read_quantity(text, {{}, {}, DecimalMark::point, {}, false, {}}, {}).value();
}

EventEnvelope event(const std::string& id, Payload payload) { return {id, "job", "here", 1, {}, {}, std::move(payload)}; }

Reading reading(const std::string& text, std::optional<std::string> supersedes = {}) {
  return {"bore-1", "top", "thrust", typed(text), "s", "", {}, {}, {}, ReadingFlag::none, "", std::move(supersedes)};
}

Part bore(const std::string& id) {
  return {id, "cylinder-bore", "1", {}, {StepKind::standard, {}, ""}, Condition::worn};
}

std::vector<std::string> codes(const Folded& folded) {
  std::vector<std::string> out;
  for (const Problem& each : folded.problems) out.push_back(each.code);
  return out;
}

TEST(Fold, EveryItemKeepsItsEvent) {
  const Folded folded = fold({event("e1", PartEntered{bore("bore-1")}), event("e2", ReadingTaken{reading("31 cw")})});
  ASSERT_TRUE(folded.problems.empty());
  EXPECT_EQ(folded.job.id, "job");
  EXPECT_EQ(folded.job.parts.at(0).event, "e1");
  EXPECT_EQ(folded.job.readings.at(0).event, "e2");
  EXPECT_EQ(folded.job.rule, usual_rule());
}

TEST(Fold, TheSameEventTwiceCountsOnce) {
  const EventEnvelope once = event("e1", ReadingTaken{reading("31 cw")});
  EXPECT_EQ(fold({once, once}).job.readings.size(), 1U);
  EXPECT_EQ(codes(fold({once, event("e1", ReadingTaken{reading("32 cw")})})),
            (std::vector<std::string>{"job.same_id_other_content"}));
}

// The same event written on another line was taken for another content.
TEST(Fold, WhereItWasTypedDoesNotMatter) {
  const EventEnvelope once = event("e1", ReadingTaken{reading("31 cw")});
  EventEnvelope elsewhere = once;
  std::get<ReadingTaken>(elsewhere.payload).reading.quantity.place = {"other.csv", 7, 3};
  EXPECT_TRUE(fold({once, elsewhere}).problems.empty());
}

TEST(Fold, ACorrectionSupersedesAndTheOldReadingStays) {
  const Folded folded = fold({event("e1", ReadingTaken{reading("31 cw")}), event("e2", ReadingTaken{reading("33 cw")}),
                              event("e3", ReadingTaken{reading("13 cw", "e1")})});
  ASSERT_TRUE(folded.problems.empty());
  ASSERT_EQ(folded.job.readings.size(), 2U);
  EXPECT_EQ(folded.job.readings[0].event, "e2");
  EXPECT_EQ(folded.job.readings[1].event, "e3");
  ASSERT_EQ(folded.job.superseded_readings.size(), 1U);
  EXPECT_EQ(folded.job.superseded_readings[0].event, "e1");
}

TEST(Fold, ACorrectionOfACorrectionNamesTheOneThatStands) {
  const Folded folded = fold({event("e1", ReadingTaken{reading("31 cw")}), event("e2", ReadingTaken{reading("13 cw", "e1")}),
                              event("e3", ReadingTaken{reading("14 cw", "e1")})});
  EXPECT_EQ(codes(folded), (std::vector<std::string>{"job.supersedes_unknown"}));
  EXPECT_EQ(folded.job.readings.size(), 2U);  // nothing is lost
}

TEST(Fold, IdsOfOneSortDiffer) {
  EXPECT_EQ(codes(fold({event("e1", PartEntered{bore("bore-1")}), event("e2", PartEntered{bore("bore-1")})})),
            (std::vector<std::string>{"job.id_taken"}));
}

TEST(Fold, EventsOfAnotherJobAreRefused) {
  EventEnvelope stray = event("e2", PartEntered{bore("bore-2")});
  stray.job = "another";
  EXPECT_EQ(codes(fold({event("e1", PartEntered{bore("bore-1")}), stray})), (std::vector<std::string>{"job.another_job"}));
}

TEST(Fold, ALaterLayoutReplacesTheEarlierOfItsKind) {
  const LayoutChosen first{"cylinder-bore", {}};
  LayoutChosen second = first;
  second.layout.stations.push_back({"top", StationRole::first, true, {}});
  const Folded folded = fold({event("e1", first), event("e2", second)});
  ASSERT_EQ(folded.job.layouts.size(), 1U);
  EXPECT_EQ(folded.job.layouts[0].event, "e2");
}

EventEnvelope withdrawn(const std::string& id, const std::string& what) { return event(id, EventWithdrawn{what, "typed wrong"}); }

TEST(Fold, WhatIsWithdrawnCountsNoLongerAndIsKept) {
  const Folded folded = fold({event("e1", ReadingTaken{reading("31 cw")}), event("e2", ReadingTaken{reading("33 cw")}), withdrawn("w1", "e1")});
  ASSERT_TRUE(folded.problems.empty());
  ASSERT_EQ(folded.job.readings.size(), 1U);
  EXPECT_EQ(folded.job.readings[0].event, "e2");
  ASSERT_EQ(folded.job.superseded_readings.size(), 1U);
  EXPECT_EQ(folded.job.superseded_readings[0].event, "e1");
  ASSERT_EQ(folded.job.withdrawn.size(), 1U);
  EXPECT_EQ(folded.job.withdrawn[0].value.why, "typed wrong");
}

TEST(Fold, AWithdrawalCanBeWithdrawnAndThatToo) {
  const EventEnvelope first = event("e1", ReadingTaken{reading("31 cw")});
  const Folded back = fold({first, withdrawn("w1", "e1"), withdrawn("w2", "w1")});
  EXPECT_TRUE(back.problems.empty());
  EXPECT_EQ(back.job.readings.size(), 1U);
  ASSERT_EQ(back.job.withdrawn.size(), 1U);
  EXPECT_EQ(back.job.withdrawn[0].event, "w2");
  const Folded away = fold({first, withdrawn("w1", "e1"), withdrawn("w2", "w1"), withdrawn("w3", "w2")});
  EXPECT_TRUE(away.job.readings.empty());
}

TEST(Fold, WithdrawingACorrectionBringsBackWhatItCorrected) {
  const EventEnvelope first = event("e1", ReadingTaken{reading("31 cw")});
  const EventEnvelope second = event("e2", ReadingTaken{reading("13 cw", "e1")});
  const Folded back = fold({first, second, withdrawn("w1", "e2")});
  EXPECT_TRUE(back.problems.empty());
  ASSERT_EQ(back.job.readings.size(), 1U);
  EXPECT_EQ(back.job.readings[0].event, "e1");
  const Folded corrected = fold({first, second, withdrawn("w1", "e1")});
  EXPECT_TRUE(corrected.problems.empty());
  ASSERT_EQ(corrected.job.readings.size(), 1U);
  EXPECT_EQ(corrected.job.readings[0].event, "e2");
}

TEST(Fold, WhatIsEnteredAnewTakesThePlaceOfWhatWasWithdrawn) {
  Part machined = bore("bore-1");
  machined.condition = Condition::machined;
  const Folded folded = fold({event("e1", PartEntered{bore("bore-1")}), event("e2", PartEntered{bore("bore-2")}), withdrawn("w1", "e1"),
                              event("e3", PartEntered{machined})});
  ASSERT_TRUE(folded.problems.empty()) << "its id is free again";
  ASSERT_EQ(folded.job.parts.size(), 2U);
  EXPECT_EQ(folded.job.parts[0].event, "e3");
  EXPECT_EQ(folded.job.parts[1].event, "e2");
}

TEST(Fold, NothingThatIsNotThereCanBeWithdrawn) {
  const EventEnvelope first = event("e1", ReadingTaken{reading("31 cw")});
  EXPECT_EQ(codes(fold({first, withdrawn("w1", "e9")})), (std::vector<std::string>{"job.withdraws_unknown"}));
  EXPECT_EQ(codes(fold({withdrawn("w1", "e1"), first})), (std::vector<std::string>{"job.withdraws_unknown"})) << "only what came before";
}

StepSeen oversize(std::vector<std::string> parts, const std::string& where) { return {std::move(parts), {StepKind::offset, typed("+0.5 mm"), where}}; }

TEST(Fold, PartsStandAtTheStepThatWasSeenLast) {
  const EventEnvelope two = event("e2", PartEntered{bore("bore-2")});
  const Folded folded = fold({event("e1", PartEntered{bore("bore-1")}), two, event("s1", oversize({"bore-1", "bore-2"}, "crown")), event("s2", oversize({"bore-2"}, "pan rail"))});
  ASSERT_TRUE(folded.problems.empty());
  EXPECT_EQ(folded.job.parts[0].value.step.seen_where, "crown");
  EXPECT_EQ(folded.job.parts[1].value.step.seen_where, "pan rail");
  EXPECT_EQ(folded.job.parts[1].value.step.kind, StepKind::offset);
  EXPECT_EQ(folded.job.parts[0].event, "e1") << "the part is still the one that was entered";
  EXPECT_EQ(folded.job.steps_seen.size(), 2U);
  const Folded back = fold({two, event("s1", oversize({"bore-2"}, "crown")), withdrawn("w1", "s1")});
  EXPECT_EQ(back.job.parts[0].value.step.kind, StepKind::standard) << "what was taken back was never seen";
}

TEST(Fold, OfAStepOfTakingApartTheLastAnswerStands) {
  const Folded folded = fold({event("e1", StripStepAnswered{"head-off", StripAnswer::cannot, "rusted"}), event("e2", StripStepAnswered{"clean", StripAnswer::done, ""}),
                              event("e3", StripStepAnswered{"head-off", StripAnswer::done, ""})});
  ASSERT_EQ(folded.job.strip_answers.size(), 2U);
  EXPECT_EQ(folded.job.strip_answers[1].event, "e3");
  EXPECT_EQ(folded.job.strip_answers[1].value.answer, StripAnswer::done);
}

TEST(Fold, ManyCorrectionsInARowLeaveTheLast) {
  std::vector<EventEnvelope> events = {event("r0", ReadingTaken{reading("1 cw")}), event("other", ReadingTaken{reading("33 cw")})};
  for (int i = 1; i <= 3000; ++i) {
    events.push_back(event("r" + std::to_string(i), ReadingTaken{reading(std::to_string(1 + i % 90) + " cw", "r" + std::to_string(i - 1))}));
  }
  const Folded folded = fold(events);
  ASSERT_TRUE(folded.problems.empty());
  ASSERT_EQ(folded.job.readings.size(), 2U);
  EXPECT_EQ(folded.job.readings[0].event, "other");
  EXPECT_EQ(folded.job.readings[1].event, "r3000");
  EXPECT_EQ(folded.job.superseded_readings.size(), 3000U);
}

}  // namespace
}  // namespace fettle
