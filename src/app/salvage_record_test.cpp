#include "app/salvage_record.h"

#include <gtest/gtest.h>

#include "app/record_on_bench.h"

namespace fettle {
namespace {

const std::string kJob = "tern-curlew-3";

struct Bench : RecordOnBench {
  Bench() { EXPECT_TRUE(take(read_folder(kExample).value()).ok()); }
};

TEST(SalvageRecord, WhatHangsTogetherStaysAsItWasAcceptedAndTheRestIsAcceptedAnew) {
  Bench bench;
  const std::vector<AcceptedEvent> all = bench.store.events(kJob, 0);
  std::vector<AcceptedEvent> left = all;
  left.erase(left.begin() + 10, left.begin() + 12);
  MemoryStore fresh(bench.clock);
  const SalvagedRecord out = salvage_record({left, {{kJob, 11, 12}}}, nullptr, fresh).value();
  EXPECT_EQ(out.jobs, 1);
  EXPECT_EQ(out.taken_over, 10);
  EXPECT_EQ(out.accepted_anew, static_cast<std::int64_t>(all.size()) - 12);
  EXPECT_EQ(out.missing, (std::vector<MissingEvents>{{kJob, 11, 12}}));
  const std::vector<AcceptedEvent> now = fresh.events(kJob, 0);
  ASSERT_EQ(now.size(), all.size() - 2);
  EXPECT_EQ(now[9], all[9]);
  EXPECT_EQ(now[10].envelope, all[12].envelope) << "the same bytes";
  EXPECT_EQ(now[10].accepted.position, 11);
  EXPECT_TRUE(chain_breaks(now).empty());
}

TEST(SalvageRecord, FilesComeAlongAsFarAsTheyAreGiven) {
  Bench bench;
  const std::string there = "aaaa" + std::string(60, '0');
  const std::string gone = "bbbb" + std::string(60, '0');
  bench.store.keep_file({there, "application/pdf", "paper", ""});
  for (const std::string& hash : {there, gone}) {
    ASSERT_TRUE(append(bench.store, bench.recorded(kJob), {FileAttached{hash, "application/pdf", "x.pdf", {}, ""}}, bench.doing).ok());
  }
  MemoryStore fresh(bench.clock);
  const SalvagedRecord out = salvage_record({bench.store.events(kJob, 0), {}}, &bench.store, fresh).value();
  EXPECT_EQ(out.files, 1);
  EXPECT_EQ(out.files_missing, 1);
  EXPECT_EQ(fresh.file(there)->bytes, "paper");
}

}  // namespace
}  // namespace fettle
