#include "app/correct.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "app/record_on_bench.h"

namespace fettle {
namespace {

const std::string kJob = "tern-curlew-3";

struct Bench : RecordOnBench {
  Bench() { EXPECT_TRUE(take(read_folder(kExample).value()).ok()); }
  [[nodiscard]] Kept<Reading> reading() { return recorded(kJob).job.readings.at(3); }
  [[nodiscard]] Result<std::string> correct(const std::string& event, const std::string& text) {
    return correct_reading(store, recorded(kJob), {event, "digits swapped"}, text, doing);
  }
  [[nodiscard]] Result<std::string> take_back(const std::string& event) { return withdraw(store, recorded(kJob), {event, "wrong bore"}, doing); }
};

TEST(Correct, TheNewReadingStandsInThePlaceOfTheOld) {
  Bench bench;
  const Kept<Reading> old = bench.reading();
  const std::string made = bench.correct(old.event.substr(0, 8), "23 acw").value();
  const Job now = bench.recorded(kJob).job;
  const auto found = std::find_if(now.readings.begin(), now.readings.end(), [&](const auto& each) { return each.event == made; });
  ASSERT_NE(found, now.readings.end());
  EXPECT_EQ(found->value.quantity.text, "23 acw");
  EXPECT_EQ(found->value.supersedes, old.event);
  EXPECT_EQ(found->value.why, "digits swapped");
  EXPECT_EQ(found->value.note, old.value.note) << "what was noted at the bench stays";
  EXPECT_EQ(found->value.order, old.value.order) << "all else as it was";
  EXPECT_EQ(now.superseded_readings.back().event, old.event);
}

TEST(Correct, ACorrectionCanBeCorrected) {
  Bench bench;
  const std::string first = bench.correct(bench.reading().event, "23 acw").value();
  ASSERT_TRUE(bench.correct(first, "24 acw").ok());
  EXPECT_EQ(refused(bench.correct(first, "25 acw")), "record.no_reading") << "it no longer stands";
}

TEST(Correct, ATextWithoutAUnitIsReadAsTheOldOneWas) {
  Bench bench;
  ASSERT_TRUE(bench.correct(bench.reading().event, "23 acw").ok());
  EXPECT_EQ(bench.recorded(kJob).job.readings.back().value.quantity.quantity.unit, UnitId::division);
  EXPECT_FALSE(bench.correct(bench.reading().event, "84.02 mm").ok()) << "a length is no needle place";
}

TEST(Correct, AnythingCanBeWithdrawnAndComeBack) {
  Bench bench;
  const std::size_t before = bench.recorded(kJob).job.readings.size();
  const Kept<Reading> old = bench.reading();
  const std::string made = bench.take_back(old.event).value();
  EXPECT_EQ(bench.recorded(kJob).job.readings.size(), before - 1);
  EXPECT_EQ(refused(bench.take_back(old.event)), "record.withdrawn_already");
  ASSERT_TRUE(bench.take_back(made).ok());
  EXPECT_EQ(bench.recorded(kJob).job.readings.size(), before);
}

TEST(Correct, ACorrectionHasAReasonAndSaysSomethingElse) {
  Bench bench;
  EXPECT_EQ(refused(correct_reading(bench.store, bench.recorded(kJob), {bench.reading().event, " "}, "23 acw", bench.doing)), "record.no_reason");
  EXPECT_EQ(refused(withdraw(bench.store, bench.recorded(kJob), {bench.reading().event, ""}, bench.doing)), "record.no_reason");
  EXPECT_EQ(refused(bench.correct(bench.reading().event, bench.reading().value.quantity.text)), "record.same_text");
}

TEST(Correct, TheJobItselfIsNotWithdrawn) {
  Bench bench;
  EXPECT_EQ(refused(bench.take_back(bench.recorded(kJob).job.opened->event)), "record.rule_broken");
}

TEST(Correct, APartThatWasReadIsNotWithdrawnUnderItsReadings) {
  Bench bench;
  const auto refusal = bench.take_back(bench.recorded(kJob).job.parts.front().event);
  ASSERT_FALSE(refusal.ok());
  ASSERT_EQ(refusal.problems().size(), 1U) << "told once, not once for each reading";
  EXPECT_EQ(refusal.problems().front().code, "record.rule_broken");
}

TEST(Correct, AnEventIsNamedByEnoughOfItsDigits) {
  Bench bench;
  EXPECT_EQ(refused(bench.correct("", "23 acw")), "record.no_such_event");
  EXPECT_EQ(refused(bench.correct(bench.reading().event.substr(0, 3), "23 acw")), "record.no_such_event");
  EXPECT_EQ(refused(bench.take_back("ffffffffffffffff")), "record.no_such_event");
  // Two events whose ids begin alike.
  Bench twins;
  const FindingSeen seen{{"bore-1", "score", FindingWeight::note, "", {}}};
  for (const char* id : {"abcd0000000000000000000000000000", "abcd1000000000000000000000000000"}) {
    ASSERT_TRUE(append_events(twins.store, twins.recorded(kJob), {{id, kJob, "d", 1, "", "", seen}}).ok());
  }
  EXPECT_EQ(refused(twins.take_back("abcd")), "record.which_event");
  EXPECT_TRUE(twins.take_back("abcd1").ok());
}

TEST(Correct, WhatIsNoReadingIsWithdrawnNotCorrected) {
  Bench bench;
  EXPECT_EQ(refused(bench.correct(bench.recorded(kJob).job.parts.front().event, "23 acw")), "record.no_reading");
}

}  // namespace
}  // namespace fettle
