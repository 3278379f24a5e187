#include "app/recorded_job.h"

#include <gtest/gtest.h>

#include "app/judge_job.h"
#include "app/record_on_bench.h"
#include "wire/event_json.h"
#include "wire/json_text.h"

namespace fettle {
namespace {

TEST(RecordedJob, IsTheJobOfItsFolder) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  const Job recorded = bench.recorded("tern-curlew-3").job;
  const auto judged = [](const Job& job) { return judgement_json(view_of(judge_job(job, {{}, usual_accuracy()}).value())); };
  EXPECT_TRUE(judged(recorded) == judged(open_folder(kExample).value()));
}

TEST(RecordedJob, WhatIsNotThereIsSaid) {
  RecordOnBench bench;
  EXPECT_EQ(refused(open_recorded(bench.store, "nobody's")), "record.no_such_job");
}

TEST(RecordedJob, ABrokenChainIsNotFolded) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  std::vector<AcceptedEvent> events = bench.store.events("tern-curlew-3", 0);
  events[4].envelope.line += " ";
  const auto read = recorded_from(events);
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.problems().front().code, "store.chain_broken");
  EXPECT_EQ(read.problems().front().arguments[1], count("position", 5));
}

TEST(RecordedJob, AnEventOfANewerProgramIsRefusedWithItsPlace) {
  RecordOnBench bench;
  const std::string line = R"({"id":"00112233445566778899aabbccddeeff","job":"tern","device":"d","device_sequence":1,"made_at":"","who":"",)"
                           R"("type":"reading-guessed","version":1,"payload":{}})";
  ASSERT_TRUE(bench.store.accept({{"tern", "00112233445566778899aabbccddeeff", line}}).ok());
  const auto read = open_recorded(bench.store, "tern");
  ASSERT_FALSE(read.ok());
  EXPECT_EQ(read.problems().front().code, "wire.unknown_event_type");
  EXPECT_EQ(read.problems().front().place.line, 1);
}

TEST(RecordedJob, AppendedEventsHaveIdsOfTheirOwnAndGoOnInSequence) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  const FindingSeen seen{{"bore-1", "score", FindingWeight::note, "", {}}};
  ASSERT_TRUE(append(bench.store, bench.recorded("tern-curlew-3"), {seen, seen}, bench.doing).ok());
  ASSERT_TRUE(append(bench.store, bench.recorded("tern-curlew-3"), {seen}, bench.doing).ok());
  const RecordedJob now = bench.recorded("tern-curlew-3");
  const std::size_t n = now.events.size();
  EXPECT_NE(now.events[n - 1].id, now.events[n - 2].id);
  EXPECT_NE(now.events[n - 2].id, now.events[n - 3].id);
  EXPECT_EQ(now.events[n - 3].device_sequence, 1);
  EXPECT_EQ(now.events[n - 1].device_sequence, 3);
  EXPECT_EQ(now.events[n - 1].who, "M");
  EXPECT_EQ(now.events[n - 1].made_at, bench.doing.at);
}

TEST(RecordedJob, WhatDoesNotFoldIsNotAppended) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  const RecordedJob before = bench.recorded("tern-curlew-3");
  EXPECT_EQ(refused(append(bench.store, before, {PartEntered{before.job.parts.front().value}}, bench.doing)), "job.id_taken");
  EXPECT_EQ(bench.store.events("tern-curlew-3", 0).size(), before.events.size());
}

}  // namespace
}  // namespace fettle
