#include "store_sqlite/failure.h"

#include <sqlite3.h>

#include <filesystem>
#include <new>

namespace fettle::sqlite {
namespace {

bool is_reading(int code) {
  return code == SQLITE_IOERR_READ || code == SQLITE_IOERR_SHORT_READ || code == SQLITE_IOERR_FSTAT || code == SQLITE_IOERR_ACCESS;
}

}  // namespace

StoreError about(const std::string& path, const char* code) { return StoreError({code, {path, {}, {}}, {verbatim("file", path)}}); }

StoreError damaged(const std::string& path, const std::string& detail) {
  return StoreError({"store.database_damaged", {path, {}, {}}, {verbatim("file", path), verbatim("detail", detail)}});
}

bool is_damage(const StoreError& error) { return error.problem.code == "store.database_damaged"; }

StoreError failure(int code, const std::string& path, const std::string& detail) {
  switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
    case SQLITE_PROTOCOL: return about(path, "store.taken");
    case SQLITE_FULL: return about(path, "store.disk_full");
    case SQLITE_READONLY:
    case SQLITE_PERM: return about(path, "store.read_only");
    case SQLITE_CANTOPEN: return about(path, "store.cannot_open");
    case SQLITE_IOERR: return about(path, is_reading(code) ? "store.cannot_read" : "store.cannot_write");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
    case SQLITE_CONSTRAINT: return damaged(path, detail);
    case SQLITE_NOMEM: throw std::bad_alloc();
    default: throw InternalError("SQLite " + std::to_string(code) + ": " + detail);
  }
}

std::string folder_of(const std::string& path) {
  const auto folder = std::filesystem::path(path).parent_path();
  return folder.empty() ? "." : folder.string();
}

}  // namespace fettle::sqlite
