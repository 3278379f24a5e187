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

TEST(RecordedJob, ALongLogIsReadInItsOrderWithEveryFault) {
  RecordOnBench bench;
  std::vector<Envelope> lines;
  for (int i = 0; i < 2500; ++i) {
    const std::string number = std::to_string(100000 + i);
    const std::string id = std::string(26, '0') + number;
    const bool wrong = i == 3 || i == 2400;
    lines.push_back({"tern", id, R"({"id":")" + id + R"(","job":"tern","device":"d","device_sequence":)" + number + R"(,"made_at":"","who":"","type":")" +
                                     (wrong ? "guessed" : "finding-seen") + R"(","version":1,"payload":{"part":"b","what":"w","weight":"note","where":""}})"});
  }
  ASSERT_TRUE(bench.store.accept(lines).ok());
  const auto faulty = open_recorded(bench.store, "tern");
  ASSERT_FALSE(faulty.ok());
  ASSERT_EQ(faulty.problems().size(), 2U);
  EXPECT_EQ(faulty.problems()[0].place.line, 4);
  EXPECT_EQ(faulty.problems()[1].place.line, 2401);
  std::erase_if(lines, [](const Envelope& each) { return each.line.find("guessed") != std::string::npos; });
  MemoryStore sound(bench.clock);
  ASSERT_TRUE(sound.accept(lines).ok());
  const RecordedJob recorded = open_recorded(sound, "tern").value();
  ASSERT_EQ(recorded.events.size(), lines.size());
  for (std::size_t i = 0; i < lines.size(); ++i) ASSERT_EQ(recorded.events[i].id, lines[i].id);
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

TEST(RecordedJob, WhoWasOvertakenAppendsNothing) {
  RecordOnBench bench;
  ASSERT_TRUE(bench.take(read_folder(kExample).value()).ok());
  const RecordedJob before = bench.recorded("tern-curlew-3");
  const FindingSeen seen{{"bore-1", "score", FindingWeight::note, "", {}}};
  ASSERT_TRUE(append(bench.store, before, {seen}, bench.doing).ok());
  EXPECT_EQ(refused(append(bench.store, before, {seen}, {"N", bench.doing.at})), "store.moved_on");
  int times = 0;
  const auto again = while_overtaken([&] {
    const RecordedJob read = ++times == 1 ? before : bench.recorded("tern-curlew-3");
    return append(bench.store, read, {seen}, {"N", bench.doing.at});
  });
  EXPECT_TRUE(again.ok());
  EXPECT_EQ(times, 2);
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
