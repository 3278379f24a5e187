#include "app/open_jobs.h"

#include <gtest/gtest.h>

#include "app/acts_on_bench.h"

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

}  // namespace
}  // namespace fettle
