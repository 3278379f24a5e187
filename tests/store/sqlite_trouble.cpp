#include <gmock/gmock.h>

#include <filesystem>
#include <functional>

#include "store/failing_disk.h"
#include "store/sqlite_maker.h"
#include "store/test_events.h"
#include "store/test_folder.h"

namespace fettle {
namespace {

using ::testing::IsEmpty;

struct Trouble {
  std::string name;
  int code;
  FailingDisk::Lasts lasts;
};

/// The n-th write fails, for every n until the work goes through untouched: a call that returned is kept, one that threw left nothing
/// half done, and the same call later succeeds.
class SqliteTrouble : public testing::TestWithParam<Trouble> {
 protected:
  SqliteTrouble() { the_disk().calm(); }
  ~SqliteTrouble() override { the_disk().calm(); }

  void arm(long nth) { the_disk().fail_writing(nth, GetParam().code, GetParam().lasts); }

  /// Gives how many different writes were made to fail.
  long run_through(const std::function<void(Store&)>& work) {
    long failures = 0;
    for (long nth = 1; nth < 4000; ++nth) {
      const TestFolder folder;
      const std::string path = sqlite_file(folder.path());
      auto store = open_sqlite(path, time);
      promise(*store, some_events("tern", 1, 20));
      arm(nth);
      const bool returned = tries(*store, work);
      const bool failed = the_disk().failed();
      the_disk().calm();
      check(*store, work, returned);
      store.reset();
      store = open_sqlite(path, time);
      check(*store, work, true);
      if (!failed) return failures;
      ++failures;
    }
    ADD_FAILURE() << "never went through";
    return failures;
  }

  void promise(Store& store, const std::vector<Envelope>& events) {
    promised_.clear();
    const auto accepted = store.accept(events).value();
    for (std::size_t i = 0; i < events.size(); ++i) promised_.push_back({events[i], accepted[i]});
  }

  static bool tries(Store& store, const std::function<void(Store&)>& work) {
    try {
      work(store);
      return true;
    } catch (const StoreError& error) {
      const std::string& code = error.problem.code;
      EXPECT_TRUE(code == "store.cannot_write" || code == "store.disk_full") << code;
      return false;
    }
  }

  void check(Store& store, const std::function<void(Store&)>& work, bool returned) {
    EXPECT_THAT(broken_promises(store, promised_), IsEmpty());
    const auto before = store.events("knot", 0).size();
    EXPECT_TRUE(before == 0 || before == 30) << before;
    work(store);
    const auto after = store.events("knot", 0);
    if (returned) {
      EXPECT_EQ(before, after.size());
    }
    EXPECT_THAT(broken_promises(store, promised_), IsEmpty());
  }

  SetClock time;
  std::vector<Acknowledged> promised_;
};

TEST_P(SqliteTrouble, WhileEventsAreAccepted) {
  EXPECT_GT(run_through([](Store& store) { EXPECT_TRUE(store.accept(some_events("knot", 1, 30)).ok()); }), 5);
}

TEST_P(SqliteTrouble, WhileAFileIsKept) {
  const StoredFile file = some_file(2, 60'000);
  EXPECT_GT(run_through([&](Store& store) {
              store.keep_file(file);
              EXPECT_EQ(store.file(file.hash), file);
            }),
            5);
}

TEST_P(SqliteTrouble, WhileARowAndAJudgementAreKept) {
  const JobRow row = some_row(5);
  EXPECT_GT(run_through([&](Store& store) {
              store.keep_row(row);
              EXPECT_EQ(store.row(row.job), row);
              store.keep_judgement(some_judgement("tern", "1.0"));
            }),
            5);
}

TEST_P(SqliteTrouble, WhileItIsClosed) {
  long failures = 0;
  for (long nth = 1;; ++nth, ++failures) {
    const TestFolder folder;
    const std::string path = sqlite_file(folder.path());
    auto store = open_sqlite(path, time);
    promise(*store, some_events("tern", 1, 200));
    arm(nth);
    store.reset();
    const bool failed = the_disk().failed();
    the_disk().calm();
    EXPECT_THAT(broken_promises(*open_sqlite(path, time), promised_), IsEmpty());
    if (!failed) break;
  }
  EXPECT_GT(failures, 5);
}

TEST_P(SqliteTrouble, WhileItIsMade) {
  long failures = 0;
  for (long nth = 1;; ++nth, ++failures) {
    const TestFolder folder;
    const std::string path = sqlite_file(folder.path());
    arm(nth);
    auto opened = open_sqlite_store(path, time, usual_sqlite_options());
    const bool failed = the_disk().failed();
    the_disk().calm();
    auto store = opened.ok() ? std::move(opened).value() : open_sqlite(path, time);
    promise(*store, some_events("tern", 1, 3));
    EXPECT_THAT(broken_promises(*store, promised_), IsEmpty());
    if (!failed) break;
  }
  EXPECT_GT(failures, 5);
}

TEST_P(SqliteTrouble, WhileItIsBackedUp) {
  const TestFolder folder;
  const auto store = open_sqlite(sqlite_file(folder.path()), time);
  promise(*store, some_events("tern", 1, 200));
  const std::string backup = folder.file("backup");
  long failures = 0;
  for (long nth = 1;; ++nth, ++failures) {
    arm(nth);
    bool whole = false;
    (void)tries(*store, [&](Store& from) { whole = from.back_up(backup).empty(); });
    const bool failed = the_disk().failed();
    the_disk().calm();
    EXPECT_EQ(std::filesystem::exists(backup), whole);
    if (whole) {
      EXPECT_THAT(check_sqlite_backup(backup), IsEmpty());
    }
    std::filesystem::remove(backup);
    if (!failed) break;
  }
  EXPECT_GT(failures, 5);
  EXPECT_THAT(broken_promises(*store, promised_), IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(Disk, SqliteTrouble,
                         testing::Values(Trouble{"WriteOnce", SQLITE_IOERR_WRITE, FailingDisk::Lasts::once},
                                         Trouble{"SyncFromThenOn", SQLITE_IOERR_FSYNC, FailingDisk::Lasts::until_calm},
                                         Trouble{"Full", SQLITE_FULL, FailingDisk::Lasts::until_calm}),
                         [](const auto& made) { return made.param.name; });

TEST(SqliteTroubles, ADiskThatIsFullIsSaidAndWhatWasAcknowledgedIsKept) {
  SetClock time;
  const TestFolder folder;
  const std::string path = sqlite_file(folder.path());
  const auto store = open_sqlite_store(path, time, {true, std::chrono::milliseconds(50), 60}).value().release();
  const std::unique_ptr<Store> owned(store);
  std::vector<Acknowledged> acknowledged;
  try {
    for (std::int64_t i = 1; i < 5000; ++i) acknowledged.push_back({some_event("tern", i), owned->accept({some_event("tern", i)}).value().front()});
    FAIL() << "the disk was never full";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.problem.code, "store.disk_full");
  }
  EXPECT_GT(acknowledged.size(), 100U);
  EXPECT_THROW(owned->keep_file(some_file(2, 600'000)), StoreError);
  EXPECT_THAT(broken_promises(*owned, acknowledged), IsEmpty());
  const auto roomy = open_sqlite(path, time);
  acknowledged.push_back({some_event("tern", 9000), roomy->accept({some_event("tern", 9000)}).value().front()});
  EXPECT_THAT(broken_promises(*roomy, acknowledged), IsEmpty());
}

TEST(SqliteTroubles, ADiskThatCannotBeReadIsSaid) {
  (void)the_disk();
  SetClock time;
  const TestFolder folder;
  const std::string path = sqlite_file(folder.path());
  (void)open_sqlite(path, time)->accept(some_events("tern", 1, 500)).value();
  const auto store = open_sqlite(path, time);
  the_disk().fail_reading();
  try {
    (void)store->events("tern", 0);
    FAIL() << "read from a disk that cannot be read";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.problem.code, "store.cannot_read");
  }
  the_disk().calm();
  EXPECT_EQ(store->events("tern", 0).size(), 500U);
}

}  // namespace
}  // namespace fettle
