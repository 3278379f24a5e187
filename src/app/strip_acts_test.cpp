#include <gtest/gtest.h>

#include "app/acts_done.h"
#include "app/acts_on_bench.h"
#include "catalogue/engine_plan.h"

namespace fettle {
namespace {

std::string told(const ActDone& done) { return done.kept ? "kept" : codes_of(done.problems); }
std::string last_words(ActsOnBench& bench) { return sentence(acts_done(bench.recorded(), 1).front().words, Language::english); }

FindingAct crack(const std::string& part) {
  FindingAct act{part, "crack", FindingWeight::needs_test, {}, {}};
  act.sort = FindingSort::crack;
  return act;
}

TEST(StripActs, ASeenStepCountsForAllItsPartsAndCanBeTakenBack) {
  ActsOnBench bench;
  const ActDone done = bench.send(ActBody(StepSeenAct{{"bore-1", "bore-2"}, StepKind::offset, "+0.50 mm", "crown"}));
  ASSERT_TRUE(done.kept);
  EXPECT_EQ(bench.now().parts[1].value.step.offset->text, "+0.50 mm");
  EXPECT_EQ(bench.now().parts[2].value.step.kind, StepKind::standard);
  EXPECT_EQ(last_words(bench), "bores 1 and 2: +0.50 mm, seen on crown");
  EXPECT_TRUE(bench.send(ActBody(WithdrawAct{done.id, "read wrongly"})).kept);
  EXPECT_EQ(bench.now().parts[1].value.step.kind, StepKind::standard);
}

TEST(StripActs, AStepIsAnsweredWithItsNote) {
  ActsOnBench bench;
  EXPECT_TRUE(bench.send(ActBody(StripStepAct{"head-off", StripAnswer::cannot, "studs rusted in"})).kept);
  EXPECT_EQ(bench.now().strip_answers.at(0).value.note, "studs rusted in");
  EXPECT_EQ(last_words(bench), "cannot be done: Lift the head off; photograph its gasket before you clean anything");
  EXPECT_TRUE(bench.send(ActBody(ReadyAct{{"bore-1", "main-2"}, MeasuredWhen::clean})).kept);
  EXPECT_EQ(bench.now().ready.at(0).value.at, "2031-05-04T10:12:05+02:00") << "a tick has the time of its act";
  EXPECT_EQ(last_words(bench), "bore 1; main journal 2: clean and dry");
}

TEST(StripActs, WhatMeansNothingIsRefusedWithEverythingWrong) {
  ActsOnBench bench;
  EXPECT_EQ(told(bench.send(ActBody(StepSeenAct{{}, StepKind::standard, "+0.50 mm", {}}))), "acts.parts_none acts.step_offset");
  EXPECT_EQ(told(bench.send(ActBody(StepSeenAct{{"bore-9"}, StepKind::offset, {}, {}}))), "job.part_unknown acts.step_offset");
  EXPECT_EQ(told(bench.send(ActBody(StripStepAct{"gearbox-off", StripAnswer::done, {}}))), "job.strip_step_unknown");
  EXPECT_EQ(told(bench.send(ActBody(ReadyAct{{}, MeasuredWhen::clean}))), "acts.parts_none");
  FindingAct wrong = crack("bore-1");
  wrong.outcome = TestOutcome::none_found;
  wrong.photo = std::string(64, 'a');
  wrong.station = "attic";
  wrong.direction = "sideways";
  EXPECT_EQ(told(bench.send(ActBody(wrong))), "gauging.unknown_station gauging.unknown_direction acts.photo_unknown acts.none_found_weight");
}

TEST(StripActs, AnEngineOfAnswersIsRefusedWithEverythingWrongToo) {
  ActsOnBench bench;
  NewEngineAct act = bench.engine("Wagtail");
  act.groups.clear();
  act.answers = std::vector<NewEngineAct::Answer>{{"cylinders", "2"}, {"cylinders", "3"}};
  EXPECT_EQ(codes_of(new_engine(bench.store, act).problems()), "engine.question_twice");
  act.answers = std::vector<NewEngineAct::Answer>{{"cylinders", "1"}};
  act.left_out.emplace();
  for (const EnginePart& each : engine_data().parts) act.left_out->push_back(each.kind);
  EXPECT_EQ(codes_of(new_engine(bench.store, act).problems()), "engine.nothing_left");
  act.left_out = {"gearbox"};
  EXPECT_EQ(codes_of(new_engine(bench.store, act).problems()), "job.kind_unknown");
}

// The same part for the same thing: a test for cracks says nothing of a bent shaft.
TEST(StripActs, WhatNeedsATestIsNotJudgedUntilTheTestWasMade) {
  ActsOnBench bench;
  const auto state = [&] {
    const auto judged = bench.jobs.judged(bench.job);
    for (const PartState& each : judged.value()->judgement.states) {
      if (each.part == "bore-1") return each.reasons.front().key;
    }
    return std::string();
  };
  ASSERT_TRUE(bench.send(ActBody(crack("bore-1"))).kept);
  EXPECT_EQ(state(), "reason.needs_test");
  FindingAct bent = crack("bore-1");
  bent.weight = FindingWeight::note;
  bent.sort = FindingSort::bent;
  bent.outcome = TestOutcome::none_found;
  ASSERT_TRUE(bench.send(ActBody(bent)).kept);
  EXPECT_EQ(state(), "reason.needs_test");
  bent.sort = FindingSort::crack;
  bent.test = FindingTest::dye;
  ASSERT_TRUE(bench.send(ActBody(bent)).kept);
  EXPECT_NE(state(), "reason.needs_test");
}

}  // namespace
}  // namespace fettle
