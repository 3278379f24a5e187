#include "app/open_jobs.h"

#include <gtest/gtest.h>

#include <chrono>
#include <future>

#include "app/acts_on_bench.h"
#include "app/index_job.h"

namespace fettle {
namespace {

TEST(OpenJobs, WhatWasTakenOnAndNotAcceptedIsForgotten) {
  ActsOnBench bench;
  const Job before = bench.now();
  const EventEnvelope event{std::string(32, '1'), bench.job, "d", 1, "", "", FindingSeen{{"bore-1", "score", FindingWeight::note, "", {}}}};
  EXPECT_THROW((void)bench.jobs.append(bench.job, [&](JobAtWork& at_work) {
                 EXPECT_TRUE(at_work.take(event).empty());
                 throw StoreError({"store.cannot_write", {}, {}});
               }),
               StoreError);
  EXPECT_TRUE(bench.now() == before);
  EXPECT_EQ(bench.jobs.append(bench.job, [](JobAtWork&) {}).value().size(), 0U) << "nothing to do is done";
  EXPECT_EQ(bench.jobs.append(bench.job, [&](JobAtWork& at_work) { EXPECT_TRUE(at_work.take(event).empty()); }).value().size(), 1U);
  EXPECT_EQ(bench.now().findings.size(), 1U);
}

TEST(OpenJobs, SomebodyQuickerMakesItDoneAgain) {
  ActsOnBench bench;
  int times = 0;
  const auto accepted = bench.jobs.append(bench.job, [&](JobAtWork& at_work) {
    if (++times == 1) {
      ASSERT_TRUE(append(bench.store, bench.recorded(), {FindingSeen{{"bore-2", "pit", FindingWeight::note, "", {}}}}, {"M", ""}).ok());
    }
    EXPECT_TRUE(at_work.take({std::string(32, '1'), bench.job, "d", 1, "", "", FindingSeen{{"bore-1", "score", FindingWeight::note, "", {}}}}).empty());
  });
  ASSERT_TRUE(accepted.ok());
  EXPECT_EQ(times, 2);
  EXPECT_EQ(bench.now().findings.size(), 2U);
  EXPECT_TRUE(bench.now() == bench.recorded().job);
}

TEST(OpenJobs, AJudgementIsKeptUntilTheLogGoesOn) {
  ActsOnBench bench;
  bench.ready();
  const auto judged = bench.jobs.judged(bench.job).value();
  EXPECT_EQ(bench.jobs.judged(bench.job).value(), judged);
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-1", "top", "thrust", "78 acw"))).kept);
  EXPECT_NE(bench.jobs.judged(bench.job).value(), judged);
}

TEST(OpenJobs, WhatIsPutToAJobDoesNotWaitForItsJudgement) {
  ActsOnBench bench;
  bench.ready();
  std::future<bool> put;
  std::size_t judgements = 0;
  OpenJobs* asked = nullptr;
  const auto append_a_finding = [&](int number) {
    const EventEnvelope event{std::string(31, 'b') + std::to_string(number), bench.job, "d", 1, "", "", FindingSeen{{"bore-1", "score", FindingWeight::note, "", {}}}};
    return asked->append(bench.job, [&](JobAtWork& at_work) { EXPECT_TRUE(at_work.take(event).empty()); }).ok();
  };
  OpenJobs jobs(bench.store, [&](const Job& job, const JudgeOptions& options) {
    if (++judgements == 1) {
      put = std::async(std::launch::async, append_a_finding, 1);
      EXPECT_EQ(put.wait_for(std::chrono::seconds(10)), std::future_status::ready) << "in the middle of it";
    }
    return judge_job(job, options);
  });
  asked = &jobs;
  const auto judged = jobs.judged(bench.job).value();
  EXPECT_TRUE(put.get());
  EXPECT_EQ(judged->job.findings.size(), 0U) << "it came too late for this one";
  EXPECT_EQ(jobs.judged(bench.job).value()->job.findings.size(), 1U) << "and what was judged meanwhile is not taken for the newest";
  EXPECT_EQ(judgements, 2U);
}

TEST(OpenJobs, ANameThatNoJobHasLeavesNothingBehind) {
  ActsOnBench bench;
  ASSERT_TRUE(bench.jobs.job(bench.job).ok());
  const std::size_t before = bench.jobs.count();
  EXPECT_EQ(refused(bench.jobs.job("no-such-1")), "record.no_such_job");
  EXPECT_EQ(refused(bench.jobs.judged("no-such-2")), "record.no_such_job");
  EXPECT_EQ(refused(bench.jobs.append("no-such-3", [](JobAtWork&) {})), "record.no_such_job");
  EXPECT_EQ(bench.jobs.count(), before);
}

TEST(OpenJobs, AJobAtRestIsListedWithTheWordsOfItsJudgement) {
  ActsOnBench bench;
  bench.ready();
  const auto row_is_of_log = [&] {
    const auto row = bench.store.row(bench.job);
    return row && row->events == static_cast<std::int64_t>(bench.recorded().events.size());
  };
  bench.jobs.list(false);
  EXPECT_FALSE(row_is_of_log()) << "somebody is at work on it";
  bench.jobs.list(false);
  ASSERT_TRUE(row_is_of_log());
  EXPECT_EQ(*bench.store.row(bench.job), row_of(bench.recorded(), nullptr));
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-1", "top", "thrust", "78 acw"))).kept);
  bench.jobs.list(false);
  EXPECT_FALSE(row_is_of_log());
  bench.jobs.list(true);
  EXPECT_TRUE(row_is_of_log()) << "at the end all are listed";
  const auto judged = bench.jobs.judged(bench.job).value();
  bench.jobs.list(false);
  EXPECT_EQ(*bench.store.row(bench.job), row_of(bench.recorded(), &judged->judgement));
}

TEST(OpenJobs, WhatAKilledProgramLeftUnlistedIsListed) {
  ActsOnBench bench;
  bench.ready();
  ASSERT_FALSE(bench.store.row(bench.job));
  list_jobs_left_behind(bench.store);
  EXPECT_EQ(*bench.store.row(bench.job), row_of(bench.recorded(), nullptr));
  // Words of a log that is still this one stay.
  JobRow with_words = *bench.store.row(bench.job);
  with_words.word = "beyond";
  bench.store.keep_row(with_words);
  list_jobs_left_behind(bench.store);
  list_job(bench.store, bench.recorded(), nullptr);
  EXPECT_EQ(bench.store.row(bench.job)->word, "beyond");
  EXPECT_TRUE(bench.send(ActBody(bench.bore("bore-1", "top", "thrust", "78 acw"))).kept);
  list_jobs_left_behind(bench.store);
  EXPECT_EQ(*bench.store.row(bench.job), row_of(bench.recorded(), nullptr)) << "the old word is not this log's";
}

}  // namespace
}  // namespace fettle
