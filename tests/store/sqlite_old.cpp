#include <gmock/gmock.h>

#include <filesystem>

#include "store/failing_disk.h"
#include "store/old_contents.h"
#include "store/sqlite_maker.h"
#include "store/test_folder.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

// Reckoned apart from this program, by tests/store/old/check_hash.py, from the rows that the sqlite3 shell gives.
const std::string kLastOfCurlew = "961c59839e052ee804d43121eb4a5ad8a7fafd96052a7405090b63f70f8ea8c6";
const std::string kLastOfTern = "5d8af75fa0571c4bf0ff878726a2a432d8b1863e3c78cf9d03c95a3e1dc3e2d3";

std::string frozen(int version) {
  return std::string(FETTLE_SOURCE_DIR) + "/tests/store/old/version-" + std::to_string(version) + ".store";
}

class SqliteOld : public testing::TestWithParam<int> {
 protected:
  SqliteOld() { std::filesystem::copy_file(frozen(GetParam()), path); }

  void expect_contents(Store& store) {
    std::vector<Envelope> found;
    for (const char* job : {"curlew-3", "tern"}) {
      for (const AcceptedEvent& each : store.events(job, 0)) found.push_back(each.envelope);
    }
    EXPECT_THAT(found, testing::UnorderedElementsAreArray(old_events()));
    EXPECT_EQ(store.last("curlew-3").value().hash, kLastOfCurlew);
    EXPECT_EQ(store.last("tern").value().hash, kLastOfTern);
    EXPECT_EQ(store.file(old_file().hash), old_file());
    EXPECT_THAT(store.faults(), IsEmpty());
  }

  SetClock time;
  TestFolder folder;
  std::string path = folder.file("jobs.fettle");
};

TEST_P(SqliteOld, OpensWithAllThatItHolds) {
  EXPECT_THAT(check_sqlite_backup(path), IsEmpty());
  const auto store = open_sqlite(path, time);
  expect_contents(*store);
  const bool has_rows = GetParam() >= 2;
  EXPECT_EQ(store->row("curlew-3"), has_rows ? std::optional(old_row()) : std::nullopt);
  EXPECT_EQ(store->judgements("curlew-3").size(), has_rows ? 1U : 0U);
  store->keep_row(old_row());
  store->keep_judgement(old_judgement());
  EXPECT_EQ(store->row("curlew-3"), old_row());
  EXPECT_THAT(store->judgements("curlew-3"), ElementsAre(old_judgement()));
  const bool has_desk = GetParam() >= 3;
  EXPECT_EQ(store->devices(), has_desk ? std::vector{old_device()} : std::vector<StoredDevice>());
  const std::vector<StoredGaugeLine> lines = {{2, "g2", "+0.072", "2031-05-04T08:12:00.000000Z"}, {3, "g2", "\x01\xff raw", "2031-05-04T08:12:00.000000Z"}};
  EXPECT_EQ(store->gauge_lines(), has_desk ? lines : std::vector<StoredGaugeLine>());
  EXPECT_EQ(store->keep_gauge_line("g2", "later", "2031-06-01T00:00:00.000000Z"), has_desk ? 4 : 1);
  EXPECT_EQ(store->accept({{"curlew-3", id_of(77), "later"}}).value().front().position, 26);
  EXPECT_THAT(store->faults(), IsEmpty());
}

TEST_P(SqliteOld, ACopyIsMadeBeforeAnUpgradeAndOnlyThen) {
  (void)open_sqlite(path, time);
  const std::string copy = path + ".before-version-" + std::to_string(GetParam() + 1);
  if (GetParam() == 3) {
    EXPECT_FALSE(std::filesystem::exists(copy));
    return;
  }
  EXPECT_THAT(check_sqlite_backup(copy), IsEmpty());
  const auto again = open_sqlite(copy, time);
  expect_contents(*again);
}

TEST_P(SqliteOld, AnUpgradeThatFailsAtAnyWriteLeavesAFileThatOpens) {
  const std::string bytes = bytes_of_file(path);
  long failures = 0;
  for (long nth = 1;; ++nth, ++failures) {
    for (const char* ending : {"", "-wal", "-shm", ".before-version-2", ".before-version-3"}) std::filesystem::remove(path + ending);
    write_bytes(path, bytes);
    the_disk().fail_writing(nth, SQLITE_IOERR_WRITE, FailingDisk::Lasts::until_calm);
    auto opened = open_sqlite_store(path, time, usual_sqlite_options());
    const bool failed = the_disk().failed();
    the_disk().calm();
    if (opened.ok()) {
      expect_contents(*opened.value());
    }
    expect_contents(*open_sqlite(path, time));
    if (!failed) break;
  }
  EXPECT_GT(failures, GetParam() < 3 ? 10 : -1);
}

INSTANTIATE_TEST_SUITE_P(Version, SqliteOld, testing::Values(1, 2, 3));

}  // namespace
}  // namespace fettle
