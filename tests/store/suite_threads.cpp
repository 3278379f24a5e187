#include <gmock/gmock.h>

#include <atomic>
#include <thread>

#include "store/store_suite.h"

namespace fettle {
namespace {

using ::testing::IsEmpty;

constexpr int kThreads = 8;
constexpr std::int64_t kEvents = 60;

/// Half of the threads write to one job together, the others each to their own.
std::string job_of(int thread) { return thread % 2 == 0 ? "tern" : "knot-" + std::to_string(thread); }

TEST_P(StoreSuite, ManyThreadsWriteAndEachGetsItsOwnAnswer) {
  std::vector<std::vector<Acknowledged>> acknowledged(kThreads);
  std::atomic<int> refused = 0;
  std::vector<std::thread> threads;
  for (int thread = 0; thread < kThreads; ++thread) {
    threads.emplace_back([&, thread] {
      for (std::int64_t i = 1; i <= kEvents; ++i) {
        const Envelope event = some_event(job_of(thread), thread * 1000 + i);
        acknowledged[static_cast<std::size_t>(thread)].push_back({event, store->accept({event}).value().front()});
        Envelope changed = event;
        changed.line += "!";
        // A refused call among the others that wait must not take them with it.
        if (i % 5 == 0 && !store->accept({some_event(job_of(thread), 900'000 + i), changed}).ok()) ++refused;
      }
    });
  }
  std::atomic<bool> writing = true;
  std::thread reader([&] {
    while (writing) {
      EXPECT_THAT(chain_breaks(store->events("tern", 0)), IsEmpty());
    }
  });
  for (std::thread& thread : threads) thread.join();
  writing = false;
  reader.join();
  EXPECT_EQ(refused, kThreads * kEvents / 5);
  std::vector<Acknowledged> all;
  for (const auto& each : acknowledged) all.insert(all.end(), each.begin(), each.end());
  EXPECT_THAT(broken_promises(*store, all), IsEmpty());
  EXPECT_EQ(store->events("tern", 0).size(), static_cast<std::size_t>(kThreads / 2 * kEvents));
}

TEST_P(StoreSuite, ABackupWhileOthersWriteHoldsAWholeBeginning) {
  ASSERT_TRUE(store->accept(some_events("tern", 1, 400)).ok());
  std::atomic<bool> writing = true;
  std::thread writer([&] {
    for (std::int64_t i = 401; writing; ++i) (void)store->accept({some_event("tern", i)}).value();
  });
  const TestFolder elsewhere;
  std::vector<Problems> problems;
  for (int i = 0; i < 5; ++i) problems.push_back(store->back_up(elsewhere.file("backup-" + std::to_string(i))));
  writing = false;
  writer.join();
  const auto all = store->events("tern", 0);
  for (int i = 0; i < 5; ++i) {
    ASSERT_THAT(problems[static_cast<std::size_t>(i)], IsEmpty());
    const auto copied = GetParam().open_backup(elsewhere.file("backup-" + std::to_string(i)), time)->events("tern", 0);
    ASSERT_GE(copied.size(), 400U);
    EXPECT_TRUE(std::equal(copied.begin(), copied.end(), all.begin())) << i;
  }
  EXPECT_THAT(store->faults(), IsEmpty());
}

/// Each thread reads how long the log is and appends only if it is still so long: no two ever see the same end.
TEST_P(StoreSuite, WhoWasOvertakenIsToldAndAppendsNothing) {
  std::atomic<int> overtaken = 0;
  std::atomic<int> appended = 0;
  std::vector<std::thread> threads;
  for (int thread = 0; thread < kThreads; ++thread) {
    threads.emplace_back([&, thread] {
      for (std::int64_t i = 1; i <= kEvents; ++i) {
        const auto last = store->last("tern");
        const auto result = store->accept_after({some_event("tern", thread * 1000 + i)}, last ? last->position : 0);
        if (result.ok()) {
          EXPECT_EQ(result.value().front().position, (last ? last->position : 0) + 1);
          ++appended;
        } else {
          EXPECT_EQ(result.problems().front().code, "store.moved_on");
          ++overtaken;
        }
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(appended + overtaken, kThreads * kEvents);
  EXPECT_EQ(store->events("tern", 0).size(), static_cast<std::size_t>(appended));
  EXPECT_EQ(store->accept_after({some_event("new", 1)}, 1).problems().front().code, "store.moved_on");
  EXPECT_TRUE(store->accept_after({some_event("new", 1)}, 0).ok());
}

}  // namespace
}  // namespace fettle
