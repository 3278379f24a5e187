#include "app/whole_engine.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/bench_list.h"
#include "app/linnet_on_bench.h"
#include "text/sentence.h"

namespace fettle {
namespace {

struct Looked : LinnetOnBench {
  explicit Looked(const LinnetTold& told) : LinnetOnBench(told), recorded_job(job()), judged(judge_job(recorded_job.job, {std::nullopt, usual_accuracy()})) {}
  [[nodiscard]] WholeEngine look(const std::string& who = "") { return whole_engine(recorded_job, judged.ok() ? &judged.value() : nullptr, {who, clock.at}); }
  RecordedJob recorded_job;
  Result<JudgedJob> judged;
};

std::string in_words(const std::vector<Message>& messages) {
  std::string out;
  for (const Message& each : messages) out += (out.empty() ? "" : "; ") + sentence(each, Language::english);
  return out;
}

TEST(WholeEngine, BoreThreeOfTheFourIsBeyond) {
  LinnetTold told{linnet_bores(4)};
  told.closing = "2 acw";
  Looked bench(told);
  const WholeEngine whole = bench.look();
  EXPECT_EQ(whole.planned, 32U);
  EXPECT_EQ(whole.in, 32U);
  EXPECT_EQ(whole.word, VerdictWord::beyond);
  ASSERT_EQ(whole.groups.size(), 1U);
  EXPECT_EQ(in_words(whole.groups[0].words), "bore 3 is beyond; bores 1, 2 and 4 are within");
  EXPECT_EQ(in_words(whole.worry), "bore 3 beyond");
  EXPECT_EQ(in_words(whole.line), "all 32 readings in; bore 3 is beyond");
  EXPECT_FALSE(whole.read_next);
  EXPECT_FALSE(whole.minutes) << "nothing is left";
}

TEST(WholeEngine, ThePaceIsThePersonsOwn) {
  // 14 of 32 places are in, 18 left. JB reads one every 20 s, with a break of half an hour; MK one every 40 s.
  std::vector<LinnetRow> rows = linnet_bores(2);
  rows.resize(14);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::size_t seconds = i < 8 ? 20 * i : 40 * (i - 8);
    const std::string at = std::to_string(seconds / 60) + ":" + (seconds % 60 < 10 ? "0" : "") + std::to_string(seconds % 60);
    rows[i].when = std::string(i < 4 ? "2031-05-04 08:0" : i < 8 ? "2031-05-04 08:3" : "2031-05-04 09:0") + at;
    rows[i].who = i < 8 ? "JB" : "MK";
  }
  Looked bench({rows});
  EXPECT_EQ(bench.look("JB").minutes, 6) << "18 readings of 20 s";
  EXPECT_EQ(bench.look("MK").minutes, 12) << "18 readings of 40 s";
  EXPECT_EQ(bench.look("QX").minutes, std::nullopt) << "nobody knows";
}

TEST(WholeEngine, WhatWasBegunIsReadNext) {
  std::vector<LinnetRow> rows = linnet_bores(2);
  rows.resize(11);
  Looked bench({rows});
  const WholeEngine whole = bench.look();
  ASSERT_TRUE(whole.read_next);
  EXPECT_EQ(whole.read_next->part->id, "bore-2");
  EXPECT_EQ(sentence(cell_message(bench.judged.value().parts[1].layout, *whole.read_next->cell), Language::english), "foot, thrust");
  EXPECT_EQ(whole.groups[0].parts[1].progress.state, MeasuredState::begun);
  EXPECT_EQ(sentence(whole.groups[0].parts[1].line, Language::english), "3 of 8 read");
  EXPECT_EQ(sentence(whole.groups[0].parts[2].line, Language::german), "8 abzulesen");
}

TEST(WholeEngine, WhatTheEyeCondemnsIsNotReadNextAndWhatWaitsForATestWorries) {
  LinnetOnBench bench(LinnetTold{});
  ASSERT_TRUE(append(bench.store, bench.job(), {FindingSeen{{"bore-1", "cracked", FindingWeight::condemns, "", {}}}, FindingSeen{{"bore-2", "a line", FindingWeight::needs_test, "", {}}}}, bench.doing).ok());
  const RecordedJob job = bench.job();
  const auto judged = judge_job(job.job, {std::nullopt, usual_accuracy()});
  ASSERT_TRUE(judged.ok());
  const WholeEngine whole = whole_engine(job, &judged.value(), {"", bench.clock.at});
  EXPECT_EQ(whole.read_next->part->id, "bore-2");
  EXPECT_EQ(in_words(whole.worry), "bore 1 beyond; bore 2: a line waits for another test");
  EXPECT_EQ(whole.planned, 24U) << "no reading of bore 1 would change anything";
}

TEST(WholeEngine, WhatCannotBeJudgedSaysSo) {
  Looked bench({linnet_bore(1)});
  const WholeEngine whole = whole_engine(bench.recorded_job, nullptr, {"", bench.clock.at});
  EXPECT_EQ(whole.word, VerdictWord::not_judged);
  EXPECT_EQ(in_words(whole.line), "8 of 32 readings in; something entered keeps it from being judged");
}

TEST(BenchList, GoesOnWhereTheLastReadingWas) {
  std::vector<LinnetRow> rows = linnet_bores(2);
  rows.resize(11);
  LinnetOnBench bench({rows});
  bench.clock.at = "2031-05-04T08:20:00.000000Z";
  ASSERT_TRUE(bench.take(read_folder(kSetAfresh).value()).ok());
  OpenJobs jobs(bench.store);
  BenchList list = bench_list(bench.store, jobs, {"", bench.clock.at});
  ASSERT_EQ(list.engines.size(), 2U);
  EXPECT_NE(list.engines[0].job, kLinnet) << "the last worked on first";
  EXPECT_NE(list.go_on->job, kLinnet);
  bench.clock.at = "2031-05-04T09:20:00.000000Z";
  const Reading next = [&] {
    Reading out = bench.job().job.readings.back().value;
    out.station = "foot";
    out.order = 12;
    return out;
  }();
  ASSERT_TRUE(append(bench.store, bench.job(), {ReadingTaken{next}}, bench.doing).ok());
  list = bench_list(bench.store, jobs, {"", "2031-05-25T09:20:00.000000Z"});
  ASSERT_TRUE(list.go_on);
  EXPECT_EQ(list.go_on->job, kLinnet);
  EXPECT_EQ(list.go_on->part, "bore-2");
  EXPECT_EQ(sentence(list.go_on->where, Language::english), "bore 2 of 4");
  EXPECT_EQ(sentence(*list.go_on->next, Language::english), "next: foot, pin");
  EXPECT_EQ(sentence(*list.go_on->left, Language::english), "left 3 weeks ago");
  ASSERT_FALSE(list.go_on->warning.empty());
  EXPECT_EQ(list.go_on->warning.front().key, "setting_now.old");
}

TEST(BenchList, APartThatIsDoneLeadsToTheNext) {
  LinnetOnBench bench({linnet_bores(2)});
  OpenJobs jobs(bench.store);
  const BenchList list = bench_list(bench.store, jobs, {"", bench.clock.at});
  EXPECT_EQ(list.go_on->part, "bore-3");
  EXPECT_EQ(sentence(*list.go_on->next, Language::german), "als Nächstes: oben, Druckrichtung");
}

TEST(BenchList, AFaultInOneEngineLeavesTheOthers) {
  LinnetOnBench bench({linnet_bores(2)});
  ASSERT_TRUE(bench.take(read_folder(kSetAfresh).value()).ok());
  OpenJobs jobs(bench.store, [](const Job& job, const JudgeOptions& options) {
    FETTLE_ASSERT(job.id != kLinnet, "planted");
    return judge_job(job, options);
  });
  const BenchList list = bench_list(bench.store, jobs, {"", bench.clock.at});
  ASSERT_EQ(list.engines.size(), 2U);
  for (const EngineOnBench& each : list.engines) {
    const bool cannot = in_words(each.line).find("keeps it from being judged") != std::string::npos;
    EXPECT_EQ(cannot, each.job == kLinnet) << each.job;
  }
}

TEST(BenchList, AnEmptyRecordIsAnEmptyBench) {
  RecordOnBench bench;
  OpenJobs jobs(bench.store);
  const BenchList list = bench_list(bench.store, jobs, {"", bench.clock.at});
  EXPECT_FALSE(list.go_on);
  EXPECT_TRUE(list.engines.empty());
}

}  // namespace
}  // namespace fettle
