#include "store_sqlite/backup.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>

#include "store_sqlite/failure.h"
#include "store_sqlite/faults.h"

namespace fettle::sqlite {
namespace {

constexpr int kPagesPerStep = 256;
constexpr std::chrono::milliseconds kCopyWait{1000};

std::string name_while_copying(const std::string& path) { return path + ".part"; }

void remove_copy(const std::string& name) {
  std::error_code ignored;
  for (const char* ending : {"", "-wal", "-shm", "-journal"}) std::filesystem::remove(name + ending, ignored);
}

void wait_for_disk(const std::string& path, int flags) {
  const int file = ::open(path.c_str(), flags | O_CLOEXEC);
  const bool written = file >= 0 && ::fsync(file) == 0;
  if (file >= 0) ::close(file);
  if (!written) throw about(path, "store.cannot_write");
}

void copy_pages(Connection& reader, const std::string& to) {
  Connection copy(to, Access::create, kCopyWait);
  sqlite3_backup* backup = sqlite3_backup_init(copy.handle(), "main", reader.handle(), "main");
  if (backup == nullptr) copy.check(sqlite3_extended_errcode(copy.handle()));
  int code = SQLITE_OK;
  while (code == SQLITE_OK) code = sqlite3_backup_step(backup, kPagesPerStep);
  const int ended = sqlite3_backup_finish(backup);
  if (code != SQLITE_DONE) throw failure(code, to, sqlite3_errstr(code));
  copy.check(ended);
}

void look_at_copy(const std::string& name) {
  Connection copy(name, Access::read, kCopyWait);
  Transaction moment(copy, Begins::reading);
  const std::vector<StoreFault> faults = faults_of(copy);
  if (!faults.empty()) throw StoreError(faults.front().problem);
}

void name_copy(const std::string& from, const std::string& path) {
  wait_for_disk(from, O_RDWR);
  std::error_code failed;
  std::filesystem::rename(from, path, failed);
  if (failed) throw about(path, "store.cannot_write");
  wait_for_disk(folder_of(path), O_RDONLY | O_DIRECTORY);
}

void copy_and_look(Connection& reader, const std::string& path, void (*look)(const std::string&)) {
  const std::string part = name_while_copying(path);
  remove_copy(part);
  try {
    copy_pages(reader, part);
    if (look != nullptr) look(part);
    name_copy(part, path);
  } catch (...) {
    remove_copy(part);
    throw;
  }
}

}  // namespace

void copy_database(Connection& reader, const std::string& path) { copy_and_look(reader, path, nullptr); }

Problems back_up_database(Connection& reader, const std::string& path) {
  if (std::filesystem::exists(path)) return {about(path, "store.file_exists").problem};
  try {
    copy_and_look(reader, path, look_at_copy);
  } catch (const StoreError& error) {
    const std::string& code = error.problem.code;
    if (code == "store.cannot_open" || code == "store.cannot_write" || code == "store.read_only") return {about(path, "store.cannot_write").problem};
    throw;
  }
  return {};
}

}  // namespace fettle::sqlite
