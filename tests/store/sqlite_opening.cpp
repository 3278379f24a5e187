#include <fcntl.h>
#include <gmock/gmock.h>
#include <sqlite3.h>

#include <filesystem>

#include "store/sqlite_maker.h"
#include "store/test_events.h"
#include "store/test_folder.h"

namespace fettle {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// Another program with the file open.
class OtherProgram {
 public:
  explicit OtherProgram(const std::string& path) { EXPECT_EQ(sqlite3_open(path.c_str(), &handle_), SQLITE_OK); }
  OtherProgram(const OtherProgram&) = delete;
  OtherProgram& operator=(const OtherProgram&) = delete;
  ~OtherProgram() { sqlite3_close(handle_); }
  /// Empty: it went well.
  std::string run(const std::string& sql) {
    char* said = nullptr;
    sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, &said);
    const std::string out = said == nullptr ? "" : said;
    sqlite3_free(said);
    return out;
  }

 private:
  sqlite3* handle_ = nullptr;
};

class SqliteOpening : public testing::Test {
 protected:
  SqliteOptions options(bool create) const { return {create, std::chrono::milliseconds(50), std::nullopt}; }
  Problem refusal(const std::string& file, bool create = true) {
    auto opened = open_sqlite_store(file, time, options(create));
    return opened.ok() ? Problem{"opened", {}, {}} : opened.problems().front();
  }
  void make_store() { ASSERT_TRUE(open_sqlite(path, time)->accept(some_events("tern", 1, 30)).ok()); }

  SetClock time;
  TestFolder folder;
  std::string path = folder.file("jobs.fettle");
};

TEST_F(SqliteOpening, MakesAStoreOnlyIfAsked) {
  EXPECT_EQ(refusal(path, false).code, "store.no_store");
  EXPECT_FALSE(std::filesystem::exists(path));
  EXPECT_EQ(refusal(folder.file("no/folder/jobs")).code, "store.no_folder");
  make_store();
  EXPECT_EQ(refusal(path, false).code, "opened");
  EXPECT_EQ(open_sqlite(path, time)->events("tern", 0).size(), 30U);
}

TEST_F(SqliteOpening, RefusesFilesOfOthersAndLeavesThemAsTheyAre) {
  const std::string text = folder.file("letter.txt");
  write_bytes(text, std::string(20'000, 'a'));
  EXPECT_EQ(refusal(text).code, "store.foreign_file");
  EXPECT_EQ(bytes_of_file(text), std::string(20'000, 'a'));
  const std::string database = folder.file("birds.db");
  ASSERT_EQ(OtherProgram(database).run("create table bird (name text); insert into bird values ('wren');"), "");
  const std::string before = bytes_of_file(database);
  EXPECT_EQ(refusal(database).code, "store.foreign_file");
  EXPECT_EQ(bytes_of_file(database), before);
  EXPECT_EQ(refusal(folder.path()).code, "store.foreign_file");
}

TEST_F(SqliteOpening, AnEmptyFileBecomesAStoreIfAsked) {
  write_bytes(path, "");
  EXPECT_EQ(refusal(path, false).code, "store.foreign_file");
  EXPECT_EQ(refusal(path, true).code, "opened");
}

TEST_F(SqliteOpening, RefusesANewerSchemaAndNamesIt) {
  make_store();
  ASSERT_EQ(OtherProgram(path).run("pragma user_version=7"), "");
  const Problem problem = refusal(path);
  EXPECT_EQ(problem.code, "store.newer_version");
  EXPECT_EQ(problem.arguments, (std::vector<Argument>{verbatim("file", path), count("needed", 7), count("known", 3)}));
}

TEST_F(SqliteOpening, RefusesASchemaThatSomebodyChanged) {
  make_store();
  ASSERT_EQ(OtherProgram(path).run("drop trigger event_stays"), "");
  EXPECT_EQ(refusal(path).code, "store.database_damaged");
}

TEST_F(SqliteOpening, WaitsForAnotherProgramButNotForEver) {
  make_store();
  const auto store = open_sqlite_store(path, time, options(false)).value().release();
  const std::unique_ptr<Store> owned(store);
  OtherProgram other(path);
  ASSERT_EQ(other.run("begin immediate"), "");
  try {
    (void)owned->accept(some_events("tern", 31, 31));
    FAIL() << "wrote beside another writer";
  } catch (const StoreError& error) {
    EXPECT_EQ(error.problem.code, "store.taken");
  }
  EXPECT_EQ(owned->events("tern", 0).size(), 30U);
  ASSERT_EQ(other.run("rollback"), "");
  EXPECT_TRUE(owned->accept(some_events("tern", 31, 31)).ok());
}

TEST_F(SqliteOpening, SaysThatAFileIsTakenWhollyByAnotherProgram) {
  make_store();
  OtherProgram other(path);
  ASSERT_EQ(other.run("pragma locking_mode=exclusive; begin exclusive; commit;"), "");
  EXPECT_EQ(refusal(path).code, "store.taken");
}

TEST_F(SqliteOpening, NothingAcceptedCanBeChangedOrTakenAway) {
  make_store();
  open_sqlite(path, time)->keep_file(some_file(2, 100));
  OtherProgram other(path);
  EXPECT_THAT(other.run("update event set line = 'x'"), HasSubstr("never changed"));
  EXPECT_THAT(other.run("update event set place = place + 100"), HasSubstr("never changed"));
  EXPECT_THAT(other.run("delete from event where position = 30"), HasSubstr("never taken away"));
  EXPECT_THAT(other.run("insert or replace into event select place, job, position, 'x', accepted_at, previous, hash, 'x' from event where position = 30"),
              HasSubstr("never replaced"));
  EXPECT_THAT(other.run("insert or replace into event select place + 1, job, position + 1, id, accepted_at, previous, hash, 'x' from event "
                        "where position = 30"),
              HasSubstr("never replaced"));
  EXPECT_THAT(other.run("update file set bytes = x'00'"), HasSubstr("never changed"));
  EXPECT_THAT(other.run("delete from file"), HasSubstr("never taken away"));
  EXPECT_THAT(other.run("insert or replace into file select number + 1, hash, type, size, seal, thumbnail, x'00' from file"),
              HasSubstr("never replaced"));
  EXPECT_THAT(other.run("update job set id = 'x'"), HasSubstr("never changed"));
  EXPECT_THAT(other.run("delete from job"), HasSubstr("never taken away"));
  EXPECT_THAT(other.run("insert or replace into job values (1, 'x')"), HasSubstr("never replaced"));
  EXPECT_THAT(open_sqlite(path, time)->faults(), IsEmpty());
}

TEST_F(SqliteOpening, ABackupIsLookedAtBeforeItIsPutBack) {
  make_store();
  const std::string backup = folder.file("backup");
  EXPECT_THAT(open_sqlite(path, time)->back_up(backup), IsEmpty());
  EXPECT_THAT(check_sqlite_backup(backup), IsEmpty());
  ASSERT_EQ(check_sqlite_backup(folder.file("none")).size(), 1U);
  EXPECT_EQ(check_sqlite_backup(folder.file("none")).front().code, "store.no_store");
  std::string bytes = bytes_of_file(backup);
  bytes[bytes.find("ReadingTaken")] = 'X';
  write_bytes(backup, bytes);
  const Problems problems = check_sqlite_backup(backup);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_EQ(problems.front().code, "store.chain_broken");
  write_bytes(backup, "no backup");
  EXPECT_EQ(check_sqlite_backup(backup).front().code, "store.foreign_file");
}

}  // namespace
}  // namespace fettle
