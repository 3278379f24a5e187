#include <gmock/gmock.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <set>

#include "numeric/xoshiro.h"
#include "store/sqlite_maker.h"
#include "store/test_events.h"
#include "store/test_folder.h"
#include "store_sqlite/page_salvage.h"

namespace fettle {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

constexpr std::size_t kPage = 8192;

/// FETTLE_FLIPS=100000 store_tests --gtest_filter=*Flip*: the long run.
long flips() {
  const char* said = std::getenv("FETTLE_FLIPS");
  return said == nullptr ? 400 : std::strtol(said, nullptr, 10);
}

/// All that a store can be asked for.
struct Everything {
  std::map<std::string, std::vector<AcceptedEvent>> events;
  std::vector<std::optional<Accepted>> last;
  std::vector<std::optional<StoredFile>> files;
  std::vector<StoredFileRow> file_rows;
  std::vector<std::optional<JobRow>> rows;
  std::vector<FoundJobs> found;
  std::vector<StoredJudgement> judgements;
};

const std::vector<std::string> kJobs = {"knot", "lark", "tern"};

std::vector<FindQuery> some_queries() {
  const FindQuery all{{}, {}, {}, {}, {}, {}, 0, 100};
  std::vector<FindQuery> out(6, all);
  out[1].engine = "curlew";
  out[2].part = "bore";
  out[3].state = "beyond";
  out[4].person = "Ada";
  out[5].from = "2031-05-08";
  return out;
}

Everything read_everything(Store& store) {
  Everything out;
  for (const std::string& job : store.jobs()) out.events[job] = store.events(job, 0);
  for (const std::string& job : kJobs) out.last.push_back(store.last(job));
  for (std::int64_t i = 1; i <= 2; ++i) out.files.push_back(store.file(some_file(i, 20'000).hash));
  out.file_rows = store.files();
  for (std::int64_t i = 0; i < 12; ++i) out.rows.push_back(store.row(some_row(i).job));
  for (const FindQuery& query : some_queries()) out.found.push_back(store.find(query));
  for (const std::string& job : kJobs) {
    for (const StoredJudgement& each : store.judgements(job)) out.judgements.push_back(each);
  }
  return out;
}

bool same(const Everything& a, const Everything& b) {
  const auto same_found = [](const FoundJobs& x, const FoundJobs& y) { return x.all == y.all && x.rows == y.rows; };
  return a.events == b.events && a.last == b.last && a.files == b.files && a.file_rows == b.file_rows && a.rows == b.rows &&
         std::equal(a.found.begin(), a.found.end(), b.found.begin(), b.found.end(), same_found) && a.judgements == b.judgements;
}

class SqliteFlips : public testing::Test {
 protected:
  SqliteFlips() {
    auto store = open_sqlite(path, time);
    for (std::int64_t i = 1; i <= 120; i += 40) {
      for (const std::string& job : kJobs) promise(*store, some_events(job, i, i + 39));
    }
    promise(*store, {{"lark", id_of(999), std::string(30'000, 'l')}});
    for (std::int64_t i = 1; i <= 2; ++i) store->keep_file(some_file(i, 20'000));
    for (std::int64_t i = 0; i < 12; ++i) store->keep_row(some_row(i));
    store->keep_judgement(some_judgement("tern", "0.9"));
    store->keep_judgement(some_judgement("tern", "1.0"));
    truth = read_everything(*store);
    store.reset();
    whole = bytes_of_file(path);
    for (const AcceptedEvent& event : all) pages_of.push_back(pages_with(event.envelope.line));
  }

  void promise(Store& store, const std::vector<Envelope>& events) {
    const auto accepted = store.accept(events).value();
    for (std::size_t i = 0; i < events.size(); ++i) all.push_back({events[i], accepted[i]});
  }

  void write_damaged(const std::string& bytes) const {
    for (const char* ending : {"-wal", "-shm"}) std::filesystem::remove(path + ending);
    write_bytes(path, bytes);
  }

  /// Short events whose bytes stand on no damaged page.
  [[nodiscard]] std::vector<AcceptedEvent> elsewhere(std::size_t damaged_page) const {
    std::vector<AcceptedEvent> out;
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (all[i].envelope.line.size() < 1000 && pages_of[i].count(damaged_page) == 0) out.push_back(all[i]);
    }
    return out;
  }

  /// Wherever its bytes stand, also those that a split page left behind.
  [[nodiscard]] std::set<std::size_t> pages_with(const std::string& line) const {
    std::set<std::size_t> out;
    for (auto at = whole.find(line); at != std::string::npos; at = whole.find(line, at + 1)) out.insert(at / kPage);
    return out;
  }

  static std::vector<AcceptedEvent> lost(const std::vector<AcceptedEvent>& wanted, const std::vector<AcceptedEvent>& given) {
    std::vector<AcceptedEvent> out;
    for (const AcceptedEvent& each : wanted) {
      if (std::find(given.begin(), given.end(), each) == given.end()) out.push_back(each);
    }
    return out;
  }

  /// Gives whether the damage was named.
  bool look(std::size_t damaged_page) {
    const auto wanted = elsewhere(damaged_page);
    EXPECT_THAT(lost(wanted, salvage_events(path).events), IsEmpty()) << "by salvage_events";
    auto opened = open_sqlite_store(path, time, usual_sqlite_options());
    if (!opened.ok()) return true;
    const auto store = std::move(opened).value();
    std::vector<AcceptedEvent> given;
    for (const std::string& job : kJobs) {
      const auto events = store->events(job, 0);
      given.insert(given.end(), events.begin(), events.end());
    }
    EXPECT_THAT(lost(wanted, given), IsEmpty()) << "by the store";
    // Never anything that was not accepted so.
    EXPECT_THAT(lost(given, all), IsEmpty());
    const bool named = !store->faults().empty();
    EXPECT_TRUE(named || reads_the_same(*store)) << "neither named nor harmless";
    return named;
  }

  bool reads_the_same(Store& store) {
    try {
      return same(read_everything(store), truth);
    } catch (const StoreError&) {
      return false;
    }
  }

  SetClock time;
  TestFolder folder;
  std::string path = folder.file("jobs.fettle");
  std::vector<AcceptedEvent> all;
  std::vector<std::set<std::size_t>> pages_of;
  Everything truth;
  std::string whole;
};

TEST_F(SqliteFlips, AnUntouchedFileReadsTheSame) {
  EXPECT_FALSE(look(999));
  EXPECT_TRUE(reads_the_same(*open_sqlite(path, time)));
  EXPECT_EQ(salvage_events(path).events.size(), all.size());
  EXPECT_THAT(salvage_events(path).missing, IsEmpty());
}

TEST_F(SqliteFlips, AFlippedByteIsNamedOrHarmlessAndTheRestIsRead) {
  long named = 0;
  for (long trial = 0; trial < flips(); ++trial) {
    Xoshiro256 draws = Xoshiro256::stream(7, static_cast<std::uint64_t>(trial));
    // Every fourth where pages begin: there a byte does most.
    const std::size_t page = draws.next() % (whole.size() / kPage);
    const std::size_t at = page * kPage + draws.next() % (trial % 4 == 0 ? 120 : kPage);
    const auto mask = static_cast<unsigned char>(trial % 2 == 0 ? 1U << (draws.next() % 8) : 1 + draws.next() % 255);
    SCOPED_TRACE("trial " + std::to_string(trial) + ": byte " + std::to_string(at) + " with " + std::to_string(mask));
    std::string bytes = whole;
    bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ mask);
    write_damaged(bytes);
    if (look(page)) ++named;
  }
  EXPECT_GT(named, flips() / 4);
}

TEST_F(SqliteFlips, AnyPageLostIsNamedAndTheRestIsRead) {
  for (std::size_t page = 0; page < whole.size() / kPage; ++page) {
    SCOPED_TRACE("page " + std::to_string(page + 1));
    std::string bytes = whole;
    bytes.replace(page * kPage, kPage, std::string(kPage, '\0'));
    write_damaged(bytes);
    const bool named = look(page);
    EXPECT_TRUE(named || whole.compare(page * kPage, kPage, std::string(kPage, '\0')) == 0);
  }
}

TEST_F(SqliteFlips, SalvageSaysWhatIsMissing) {
  const std::string& line = truth.events["knot"][50].envelope.line;
  const std::size_t page = whole.find(line) / kPage;
  std::string bytes = whole;
  bytes.replace(page * kPage, kPage, std::string(kPage, '\0'));
  write_damaged(bytes);
  const SalvagedEvents left = salvage_events(path);
  ASSERT_EQ(left.missing.size(), 1U);
  const MissingEvents gone = left.missing.front();
  EXPECT_EQ(gone.job, "knot");
  EXPECT_TRUE(gone.first <= 51 && gone.last >= 51);
  EXPECT_EQ(left.events.size() + static_cast<std::size_t>(gone.last - gone.first + 1), all.size());
}

TEST_F(SqliteFlips, SalvageKnowsOfTheLastEventsByTheIndexOfIds) {
  // The row's bytes alone are spoilt, so its place is known from the index only.
  const std::string& line = truth.events["tern"].back().envelope.line;
  std::string bytes = whole;
  for (auto at = bytes.find(line); at != std::string::npos; at = bytes.find(line)) bytes[at] = 'X';
  write_damaged(bytes);
  EXPECT_THAT(salvage_events(path).missing, ElementsAre(MissingEvents{"tern", 120, 120}));
}

TEST_F(SqliteFlips, SalvageReadsTheCommittedPartOfTheLog) {
  const auto store = open_sqlite(path, time);
  for (std::int64_t i = 200; i < 260; ++i) promise(*store, {some_event("tern", i)});
  const std::string copy = folder.file("copy");
  std::filesystem::copy_file(path, copy);
  std::filesystem::copy_file(path + "-wal", copy + "-wal");
  ASSERT_GT(std::filesystem::file_size(copy + "-wal"), 60U * kPage);
  EXPECT_EQ(salvage_events(copy).events.size(), all.size());
  EXPECT_THAT(salvage_events(copy).missing, IsEmpty());
  // A byte of the log: all that was committed before it is there.
  std::string log = bytes_of_file(copy + "-wal");
  log[log.size() / 2] = static_cast<char>(log[log.size() / 2] + 1);
  write_bytes(copy + "-wal", log);
  const auto half = salvage_events(copy).events.size();
  EXPECT_LT(half, all.size());
  EXPECT_GT(half, all.size() - 60 + 20);
}

TEST_F(SqliteFlips, SalvageOfWhatIsNoStoreGivesNothing) {
  EXPECT_THAT(salvage_events(folder.file("none")).events, IsEmpty());
  for (std::uint64_t trial = 0; trial < 50; ++trial) {
    Xoshiro256 draws = Xoshiro256::stream(8, trial);
    std::string noise;
    for (std::size_t i = 0; i < 3 * kPage + 17; ++i) noise += static_cast<char>(draws.next() & 0xFFU);
    for (const std::size_t page : {0U, 1U, 2U}) noise[page * kPage] = page == 1 ? '\x0a' : '\x0d';
    write_bytes(folder.file("noise"), noise);
    EXPECT_THAT(salvage_events(folder.file("noise")).events, IsEmpty());
  }
}

}  // namespace
}  // namespace fettle
