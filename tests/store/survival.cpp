#include <gmock/gmock.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <thread>

#include "numeric/xoshiro.h"
#include "store/child.h"
#include "store/old_contents.h"
#include "store/sqlite_maker.h"
#include "store/test_folder.h"

namespace fettle {
namespace {

using ::testing::IsEmpty;

/// FETTLE_KILLS=2000 store_survival: the long run.
long kills() {
  const char* said = std::getenv("FETTLE_KILLS");
  return said == nullptr ? 40 : std::strtol(said, nullptr, 10);
}

Xoshiro256 trial_draws(std::uint64_t test, long trial) { return Xoshiro256::stream(test, static_cast<std::uint64_t>(trial)); }

void wait_microseconds(std::uint64_t count) { ::usleep(static_cast<useconds_t>(count)); }

std::string told(const Envelope& event, const Accepted& accepted) {
  return event.job + " " + event.id + " " + std::to_string(accepted.position) + " " + accepted.accepted_at + " " + accepted.previous + " " + accepted.hash;
}

Acknowledged untold(const std::string& line) {
  std::istringstream in(line);
  std::string job;
  std::string id;
  Accepted accepted{};
  in >> job >> id >> accepted.position >> accepted.accepted_at >> accepted.previous >> accepted.hash;
  return {some_event(job, std::stoll(id)), accepted};
}

/// Writes events until it is killed, or `most` of them; the clock goes back now and then.
void write_events(Store& store, SetClock& time, int writer, std::int64_t most, const Child::Tell& tell) {
  for (std::int64_t i = 1; i <= most; ++i) {
    if (i % 7 == 0) time.time = i % 14 == 0 ? "2031-05-04T08:12:00.000000Z" : "1999-01-01T00:00:00.000000Z";
    const std::string job = i % 3 == 0 ? "shared" : "own-" + std::to_string(writer);
    const std::vector<Envelope> events = some_events(job, writer * 1'000'000 + 10 * i, writer * 1'000'000 + 10 * i + i % 4);
    const auto accepted = store.accept(events).value();
    for (std::size_t e = 0; e < events.size(); ++e) tell(told(events[e], accepted[e]));
    if (i % 16 == 0) store.keep_file(some_file(writer * 1'000'000 + i, 30'000));
    if (i % 9 == 0) store.keep_row(some_row(i % 50));
  }
}

std::vector<Acknowledged> all_told(Child& child) {
  std::vector<Acknowledged> out;
  for (const std::string& line : child.lines()) out.push_back(untold(line));
  return out;
}

/// Opens, looks, and writes one more: what was acknowledged is there once.
void expect_kept(const std::string& path, const std::vector<Acknowledged>& acknowledged) {
  SetClock time;
  const auto store = open_sqlite(path, time);
  EXPECT_THAT(broken_promises(*store, acknowledged), IsEmpty());
  EXPECT_TRUE(store->accept({some_event("after", static_cast<std::int64_t>(acknowledged.size()))}).ok());
}

TEST(Survival, KilledWhileWriting) {
  std::size_t acknowledged = 0;
  for (long trial = 0; trial < kills(); ++trial) {
    SCOPED_TRACE("trial " + std::to_string(trial));
    Xoshiro256 draws = trial_draws(1, trial);
    const TestFolder folder;
    const std::string path = sqlite_file(folder.path());
    std::vector<Acknowledged> promised;
    // Killed three times in a row, on the same file.
    for (int round = 1; round <= 3; ++round) {
      Child child([&](const Child::Tell& tell) {
        SetClock time;
        const auto store = open_sqlite(path, time);
        write_events(*store, time, round, 100'000, tell);
      });
      if (draws.next() % 4 > 0) child.wait_for(draws.next() % 120);
      wait_microseconds(draws.next() % 4000);
      child.kill();
      const auto fresh = all_told(child);
      promised.insert(promised.end(), fresh.begin(), fresh.end());
      expect_kept(path, promised);
    }
    acknowledged += promised.size();
  }
  EXPECT_GT(acknowledged, static_cast<std::size_t>(kills()) * 20);
}

TEST(Survival, KilledWhileManyThreadsWrite) {
  for (long trial = 0; trial < kills() / 2; ++trial) {
    SCOPED_TRACE("trial " + std::to_string(trial));
    Xoshiro256 draws = trial_draws(2, trial);
    const TestFolder folder;
    const std::string path = sqlite_file(folder.path());
    Child child([&](const Child::Tell& tell) {
      SetClock time;
      const auto store = open_sqlite(path, time);
      std::vector<SetClock> unused(4);
      std::vector<std::thread> threads;
      for (int writer = 1; writer <= 4; ++writer) {
        threads.emplace_back([&, writer] { write_events(*store, unused[static_cast<std::size_t>(writer) - 1], writer, 100'000, tell); });
      }
      for (std::thread& thread : threads) thread.join();
    });
    child.wait_for(draws.next() % 400);
    wait_microseconds(draws.next() % 4000);
    child.kill();
    expect_kept(path, all_told(child));
  }
}

TEST(Survival, TwoProcessesWriteToOneFile) {
  for (int trial = 0; trial < 5; ++trial) {
    const TestFolder folder;
    const std::string path = sqlite_file(folder.path());
    // Both make the file at the same moment.
    const auto work = [&](int writer) {
      return [&path, writer](const Child::Tell& tell) {
        SetClock time;
        const auto store = open_sqlite(path, time);
        write_events(*store, time, writer, 120, tell);
      };
    };
    Child first(work(1));
    Child second(work(2));
    std::vector<Acknowledged> promised = all_told(first);
    const auto more = all_told(second);
    EXPECT_TRUE(first.ended_well() && second.ended_well());
    promised.insert(promised.end(), more.begin(), more.end());
    EXPECT_EQ(promised.size(), 2U * 300U);
    expect_kept(path, promised);
  }
}

TEST(Survival, KilledWhileUpgrading) {
  const std::string frozen = std::string(FETTLE_SOURCE_DIR) + "/tests/store/old/version-1.store";
  long unfinished = 0;
  for (long trial = 0; trial < kills(); ++trial) {
    SCOPED_TRACE("trial " + std::to_string(trial));
    Xoshiro256 draws = trial_draws(3, trial);
    const TestFolder folder;
    const std::string path = sqlite_file(folder.path());
    std::filesystem::copy_file(frozen, path);
    Child child([&](const Child::Tell& tell) {
      SetClock time;
      tell("begins");
      const auto store = open_sqlite(path, time);
      tell("upgraded");
    });
    child.wait_for(1);
    wait_microseconds(draws.next() % 5000);
    child.kill();
    if (child.lines().size() < 2) ++unfinished;
    SetClock time;
    const auto store = open_sqlite(path, time);
    EXPECT_EQ(store->events("curlew-3", 0).size(), 25U);
    EXPECT_EQ(store->events("tern", 0).size(), 5U);
    EXPECT_EQ(store->file(old_file().hash), old_file());
    EXPECT_THAT(store->faults(), IsEmpty());
    store->keep_row(old_row());
    EXPECT_EQ(store->row("curlew-3"), old_row());
    const std::string copy = path + ".before-version-2";
    if (std::filesystem::exists(copy)) {
      EXPECT_THAT(check_sqlite_backup(copy), IsEmpty());
    }
  }
  EXPECT_GT(unfinished, kills() / 8);
}

TEST(Survival, KilledWhileBackingUp) {
  long unfinished = 0;
  for (long trial = 0; trial < kills(); ++trial) {
    SCOPED_TRACE("trial " + std::to_string(trial));
    Xoshiro256 draws = trial_draws(4, trial);
    const TestFolder folder;
    const std::string path = sqlite_file(folder.path());
    const std::string backup = folder.file("backup");
    Child child([&](const Child::Tell& tell) {
      SetClock time;
      const auto store = open_sqlite(path, time);
      const auto events = some_events("tern", 1, 800);
      const auto accepted = store->accept(events).value();
      for (std::size_t e = 0; e < events.size(); ++e) tell(told(events[e], accepted[e]));
      if (store->back_up(backup).empty()) tell(told(events[0], accepted[0]));
    });
    child.wait_for(800);
    wait_microseconds(draws.next() % 15'000);
    child.kill();
    const auto promised = all_told(child);
    const bool there = std::filesystem::exists(backup);
    if (!there) ++unfinished;
    EXPECT_TRUE(there || promised.size() < 801);
    if (there) {
      EXPECT_THAT(check_sqlite_backup(backup), IsEmpty());
      expect_kept(backup, promised);
    }
    expect_kept(path, promised);
    SetClock time;
    // A copy that was left half done is no hindrance.
    EXPECT_THAT(open_sqlite(path, time)->back_up(folder.file("again")), IsEmpty());
    if (!there) {
      EXPECT_THAT(open_sqlite(path, time)->back_up(backup), IsEmpty());
    }
  }
  EXPECT_GT(unfinished, kills() / 8);
}

/// Somebody without rights; tests run as root may write anywhere.
void give_up_rights() {
  if (::geteuid() == 0 && ::setuid(65534) != 0) ::_exit(4);
}

std::string code_for_nobody(const std::string& path) {
  Child child([&](const Child::Tell& tell) {
    give_up_rights();
    SetClock time;
    const auto opened = open_sqlite_store(path, time, usual_sqlite_options());
    tell(opened.ok() ? "opened" : opened.problems().front().code);
  });
  const auto lines = child.lines();
  return lines.empty() ? "nothing told" : lines.front();
}

TEST(Survival, FilesAndFoldersThatMayNotBeWrittenToAreSaid) {
  namespace fs = std::filesystem;
  const TestFolder folder;
  const std::string path = sqlite_file(folder.path());
  SetClock time;
  (void)open_sqlite(path, time)->accept(some_events("tern", 1, 3)).value();
  const auto everyone = fs::perms::all;
  fs::permissions(folder.path(), everyone);
  fs::permissions(path, fs::perms::owner_read | fs::perms::others_read);
  EXPECT_EQ(code_for_nobody(path), "store.read_only");
  fs::permissions(path, everyone);
  EXPECT_EQ(code_for_nobody(path), "opened");
  fs::permissions(folder.path(), fs::perms::owner_all | fs::perms::others_read | fs::perms::others_exec);
  EXPECT_EQ(code_for_nobody(path), "store.read_only");
  EXPECT_EQ(code_for_nobody(folder.file("fresh.fettle")), "store.read_only");
  fs::permissions(folder.path(), everyone);
  fs::create_directory(path + "-wal");
  EXPECT_EQ(code_for_nobody(path), "store.cannot_open");
  fs::remove(path + "-wal");
  EXPECT_EQ(open_sqlite(path, time)->events("tern", 0).size(), 3U);
}

}  // namespace
}  // namespace fettle
