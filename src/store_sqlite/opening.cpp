#include "store_sqlite/opening.h"

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "store_sqlite/backup.h"
#include "store_sqlite/failure.h"
#include "store_sqlite/faults.h"
#include "store_sqlite/page_file.h"
#include "store_sqlite/schema.h"

namespace fettle::sqlite {
namespace {

constexpr std::chrono::milliseconds kBackupWait{1000};
constexpr std::chrono::milliseconds kPause{10};

bool may_write(const std::string& path) { return ::faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) == 0; }

/// SQLite tells these apart badly, and a read-only folder only at the first write.
void look_at_place(const std::string& path, bool create) {
  std::error_code ignored;
  const std::string folder = folder_of(path);
  if (!std::filesystem::is_directory(folder, ignored)) throw about(folder, "store.no_folder");
  const bool there = std::filesystem::exists(path, ignored);
  if (!there && !create) throw about(path, "store.no_store");
  if (there && !std::filesystem::is_regular_file(path, ignored)) throw about(path, "store.foreign_file");
  if (there && !may_write(path)) throw about(path, "store.read_only");
  if (!may_write(folder)) throw about(folder, "store.read_only");
}

void refuse_foreign(Connection& connection) {
  if (sort_of_file(connection) != FileSort::ours) throw about(connection.path(), "store.foreign_file");
}

void refuse_newer(Connection& connection) {
  const std::int64_t version = version_of(connection);
  if (version <= kSchemaVersion) return;
  throw StoreError({"store.newer_version",
                    {connection.path(), {}, {}},
                    {verbatim("file", connection.path()), count("needed", version), count("known", kSchemaVersion)}});
}

void refuse_other_schema(Connection& connection) {
  const std::int64_t version = version_of(connection);
  if (version < 1) throw damaged(connection.path(), "schema version " + std::to_string(version));
  const std::string difference = schema_difference(connection, version);
  if (!difference.empty()) throw damaged(connection.path(), difference);
}

void make_new(Connection& writer) {
  prepare_empty_file(writer);
  Transaction transaction(writer, Begins::writing);
  // Another program may have been quicker.
  if (sort_of_file(writer) != FileSort::empty) return;
  for (std::int64_t from = 0; from < kSchemaVersion; ++from) upgrade_one(writer, from);
  transaction.commit();
}

/// Two programs that make the same file at once meet a lock that SQLite does not wait for by itself.
void make_when_free(Connection& writer, std::chrono::milliseconds busy_wait) {
  for (std::chrono::milliseconds waited{0};; waited += kPause) {
    try {
      return make_new(writer);
    } catch (const StoreError& error) {
      if (error.problem.code != "store.taken" || waited >= busy_wait) throw;
    }
    std::this_thread::sleep_for(kPause);
  }
}

void copy_old(const std::string& path, std::int64_t version, std::chrono::milliseconds busy_wait) {
  Connection reader(path, Access::read, busy_wait);
  Transaction moment(reader, Begins::reading);
  copy_database(reader, copy_before_upgrade(path, version));
}

/// One version on, in one transaction that nobody can write beside; the copy is made within it.
void upgrade(Connection& writer, std::chrono::milliseconds busy_wait) {
  Transaction transaction(writer, Begins::writing);
  const std::int64_t from = version_of(writer);
  if (from >= kSchemaVersion) return;
  copy_old(writer.path(), from + 1, busy_wait);
  upgrade_one(writer, from);
  transaction.commit();
}

/// Whether our name stands where a store has it, so that a file that is no database any more was one of ours.
bool bears_our_name(const std::string& path) {
  constexpr std::size_t kNameAt = 68;
  std::string header(kNameAt + 4, '\0');
  std::ifstream(path, std::ios::binary).read(header.data(), static_cast<std::streamsize>(header.size()));
  return big_endian(header, kNameAt, 4) == kApplicationId;
}

/// A file that never was a store of ours is told as such, not as a damaged one.
template <class Open>
auto or_foreign(const std::string& path, const Open& open) {
  try {
    return open();
  } catch (const StoreError& error) {
    if (is_damage(error) && !bears_our_name(path)) throw about(path, "store.foreign_file");
    throw;
  }
}

void open_as_ours(Connection& writer, const SqliteOptions& options) {
  if (options.create && sort_of_file(writer) == FileSort::empty) make_when_free(writer, options.busy_wait);
  refuse_foreign(writer);
  refuse_newer(writer);
  refuse_other_schema(writer);
  writer.script("pragma journal_mode=wal;");
  while (version_of(writer) < kSchemaVersion) upgrade(writer, options.busy_wait);
  if (options.most_pages) writer.script("pragma max_page_count=" + std::to_string(*options.most_pages) + ";");
}

}  // namespace

std::unique_ptr<Connection> open_writer(const std::string& path, const SqliteOptions& options) {
  look_at_place(path, options.create);
  return or_foreign(path, [&] {
    auto writer = std::make_unique<Connection>(path, options.create ? Access::create : Access::write, options.busy_wait);
    open_as_ours(*writer, options);
    return writer;
  });
}

Problems problems_of_file(const std::string& path) {
  look_at_place(path, false);
  return or_foreign(path, [&] {
    Connection reader(path, Access::read, kBackupWait);
    Transaction moment(reader, Begins::reading);
    refuse_foreign(reader);
    refuse_newer(reader);
    Problems problems;
    for (const StoreFault& fault : faults_of(reader)) problems.push_back(fault.problem);
    return problems;
  });
}

}  // namespace fettle::sqlite
