#include "app/verdict_rows.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/acts_done.h"
#include "app/bench.h"
#include "app/linnet_on_bench.h"
#include "text/sentence.h"

namespace fettle {
namespace {

struct Rows : LinnetOnBench {
  explicit Rows(const LinnetTold& told) : LinnetOnBench(told) { judge(); }
  void judge() {
    recorded_job = job();
    judged = judge_job(recorded_job.job, {std::nullopt, usual_accuracy()}).value();
  }
  RecordedJob recorded_job;
  JudgedJob judged;
};

LinnetTold four_bores() {
  LinnetTold out{linnet_bores(4)};
  out.closing = "2 acw";
  return out;
}

std::string spoken(const JudgedJob& judged, Language language) {
  std::string out;
  for (const Message& each : spoken_verdict(judged)) out += (out.empty() ? "" : "; ") + sentence(each, language);
  return out;
}

TEST(VerdictRows, TheWorstStandsFirst) {
  Rows bench(four_bores());
  const VerdictRows rows = verdict_rows(bench.recorded_job, bench.judged);
  ASSERT_EQ(rows.judged.size(), 12U) << "four bores under three service limits; those of new parts have no row";
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(rows.judged[i].part->part.id, "bore-3");
    EXPECT_EQ(rows.judged[i].verdict->word, VerdictWord::beyond);
  }
  for (std::size_t i = 4; i < rows.judged.size(); ++i) {
    EXPECT_EQ(rows.judged[i].verdict->word, VerdictWord::within);
    EXPECT_LE(hope_of(*rows.judged[i - 1].verdict), hope_of(*rows.judged[i].verdict));
  }
  EXPECT_TRUE(rows.not_judged.empty());
  EXPECT_EQ(spoken(bench.judged, Language::english), "bores 1, 2 and 4 may go back; bore 3 is beyond");
  EXPECT_EQ(spoken(bench.judged, Language::german), "Bohrungen 1, 2 und 4 dürfen wieder hinein; Bohrung 3 ist außerhalb");
}

TEST(VerdictRows, AKindOfWhichNothingIsKnownIsNamedAsOne) {
  Rows bench(four_bores());
  for (const char* each : {"1", "2"}) {
    const Part piston{std::string("piston-") + each, "piston", each, {}, {StepKind::standard, {}, ""}, Condition::worn};
    bench.judged.parts.push_back(on_bench(bench.recorded_job.job, piston, catalogue()));
    PartState state = bench.judged.judgement.states.front();
    state.part = piston.id;
    state.word = StateWord::not_judged;
    bench.judged.judgement.states.push_back(state);
  }
  EXPECT_EQ(spoken(bench.judged, Language::english), "bores 1, 2 and 4 may go back; bore 3 is beyond; not judged yet: Pistons");
  EXPECT_EQ(spoken(bench.judged, Language::german), "Bohrungen 1, 2 und 4 dürfen wieder hinein; Bohrung 3 ist außerhalb; noch nicht beurteilt: Kolben");
}

TEST(VerdictRows, ManyKindsOfWhichNothingIsKnownAreCounted) {
  Rows bench(four_bores());
  const std::string four = "bores 1, 2 and 4 may go back; bore 3 is beyond";
  for (const char* kind : {"piston", "valve-guide", "crankpin", "main-journal", "cam-lobe"}) {
    const Part part{std::string(kind) + "-1", kind, "1", {}, {StepKind::standard, {}, ""}, Condition::worn};
    bench.judged.parts.push_back(on_bench(bench.recorded_job.job, part, catalogue()));
    PartState state = bench.judged.judgement.states.front();
    state.part = part.id;
    state.word = StateWord::not_judged;
    bench.judged.judgement.states.push_back(state);
    if (std::string(kind) == "main-journal") {
      EXPECT_EQ(spoken(bench.judged, Language::english).find("groups of parts"), std::string::npos) << "four are still named";
    }
  }
  EXPECT_EQ(spoken(bench.judged, Language::english), four + "; 5 groups of parts are not judged yet");
}

TEST(VerdictRows, ATakenVerdictStaysVisiblyOverruled) {
  Rows bench(four_bores());
  const auto taken = append(bench.store, bench.job(), {VerdictTaken{"bore-3", "service", TakenWord::within, "spare engine", VerdictWord::beyond}}, {"MK", "2031-05-04T10:12:00+02:00"});
  ASSERT_TRUE(taken.ok());
  ASSERT_TRUE(append(bench.store, bench.job(), {VerdictTaken{"bore-1", {}, TakenWord::within, "", VerdictWord::within}}, {"MK", ""}).ok());
  bench.judge();
  const VerdictRows rows = verdict_rows(bench.recorded_job, bench.judged);
  for (const VerdictRow& each : rows.judged) {
    if (each.part->part.id == "bore-3" && each.limit->id == "service") {
      ASSERT_TRUE(each.taken);
      EXPECT_TRUE(each.taken->overrules);
      EXPECT_EQ(each.taken->who, "MK");
      EXPECT_EQ(each.taken->at, "2031-05-04T10:12:00+02:00");
      EXPECT_EQ(each.verdict->word, VerdictWord::beyond) << "the program's word stays";
    } else if (each.part->part.id == "bore-1") {
      ASSERT_TRUE(each.taken) << "of the whole part";
      EXPECT_FALSE(each.taken->overrules);
    } else {
      EXPECT_FALSE(each.taken);
    }
  }
  const std::vector<ActInWords> acts = acts_done(bench.recorded_job, 2);
  ASSERT_EQ(acts.size(), 2U);
  EXPECT_EQ(sentence(acts[1].words, Language::english), "bore 3 taken as within: spare engine");
}

TEST(VerdictRows, WhatWasNotReadIsNotJudged) {
  Rows bench({linnet_bore(1)});
  const VerdictRows rows = verdict_rows(bench.recorded_job, bench.judged);
  EXPECT_EQ(rows.not_judged.size(), 9U) << "three bores under three limits";
  LinnetTold told{linnet_bore(1)};
  told.limits = false;
  Rows free(told);
  EXPECT_EQ(verdict_rows(free.recorded_job, free.judged).without_verdict.size(), 4U);
}

TEST(ActsDone, TheNewestFirstAndWhatWasTakenBackStandsNoMore) {
  Rows bench({linnet_bore(1)});
  const std::string last = bench.recorded_job.events.back().id;
  const auto withdrawal = append(bench.store, bench.job(), {EventWithdrawn{last, "wrong bore"}}, bench.doing);
  ASSERT_TRUE(withdrawal.ok());
  std::vector<ActInWords> acts = acts_done(bench.job(), 50);
  EXPECT_EQ(sentence(acts[0].words, Language::english), "taken back: bore 1, top, pin: 66 acw (wrong bore)");
  EXPECT_TRUE(acts[0].standing);
  EXPECT_EQ(acts[1].event, last);
  EXPECT_FALSE(acts[1].standing);
  EXPECT_TRUE(acts[2].standing);
  ASSERT_TRUE(append(bench.store, bench.job(), {EventWithdrawn{withdrawal.value().front(), "right after all"}}, bench.doing).ok());
  acts = acts_done(bench.job(), 3);
  ASSERT_EQ(acts.size(), 3U);
  EXPECT_EQ(acts[0].words.key, "act_done.brought_back");
  EXPECT_FALSE(acts[1].standing);
  EXPECT_TRUE(acts[2].standing) << "the reading counts again";
}

}  // namespace
}  // namespace fettle
