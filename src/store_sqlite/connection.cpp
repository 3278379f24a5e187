#include "store_sqlite/connection.h"

#include <sqlite3.h>

#include "store_sqlite/failure.h"

namespace fettle::sqlite {

Statement::~Statement() {
  sqlite3_reset(statement_);
  sqlite3_clear_bindings(statement_);
}

Statement& Statement::text(std::string_view value) {
  connection_->check(sqlite3_bind_text64(statement_, ++bound_, value.data() == nullptr ? "" : value.data(), value.size(), SQLITE_STATIC, SQLITE_UTF8));
  return *this;
}

Statement& Statement::blob(std::string_view value) {
  connection_->check(sqlite3_bind_blob64(statement_, ++bound_, value.data() == nullptr ? "" : value.data(), value.size(), SQLITE_STATIC));
  return *this;
}

Statement& Statement::number(std::int64_t value) {
  connection_->check(sqlite3_bind_int64(statement_, ++bound_, value));
  return *this;
}

bool Statement::step() {
  const int code = sqlite3_step(statement_);
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) connection_->check(code);
  return false;
}

void Statement::run() {
  while (step()) {
  }
}

std::string Statement::bytes(int column) const {
  const void* data = sqlite3_column_blob(statement_, column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
  return data == nullptr ? std::string() : std::string(static_cast<const char*>(data), size);
}

std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(statement_, column); }

Connection::Connection(const std::string& path, Access access, std::chrono::milliseconds busy_wait) : path_(path) {
  try {
    open(access, busy_wait);
  } catch (...) {
    sqlite3_close_v2(handle_);
    throw;
  }
}

void Connection::open(Access access, std::chrono::milliseconds busy_wait) {
  const int create = access == Access::create ? SQLITE_OPEN_CREATE : 0;
  check(sqlite3_open_v2(path_.c_str(), &handle_, SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE | create, nullptr));
  check(sqlite3_busy_timeout(handle_, static_cast<int>(busy_wait.count())));
  check(sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr));
  check(sqlite3_db_config(handle_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr));
  script("pragma cell_size_check=on; pragma synchronous=full; pragma cache_size=-8000;");
  if (access == Access::read) script("pragma query_only=on;");
}

Connection::~Connection() {
  for (const auto& [sql, prepared] : prepared_) sqlite3_finalize(prepared);
  sqlite3_close_v2(handle_);
}

void Connection::check(int code) const {
  if (code == SQLITE_OK) return;
  throw failure(code, path_, handle_ == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(handle_));
}

Statement Connection::statement(const std::string& sql) {
  sqlite3_stmt*& prepared = prepared_[sql];
  if (prepared == nullptr) {
    check(sqlite3_prepare_v3(handle_, sql.data(), static_cast<int>(sql.size()), SQLITE_PREPARE_PERSISTENT, &prepared, nullptr));
  }
  FETTLE_ASSERT(sqlite3_stmt_busy(prepared) == 0, "used twice at once: " + sql);
  return {*this, prepared};
}

void Connection::script(const std::string& sql) { check(sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr)); }

std::int64_t Connection::number(const std::string& sql) {
  Statement asked = statement(sql);
  return asked.step() ? asked.integer(0) : 0;
}

std::string Connection::text(const std::string& sql) {
  Statement asked = statement(sql);
  return asked.step() ? asked.bytes(0) : std::string();
}

bool Connection::in_transaction() const { return sqlite3_get_autocommit(handle_) == 0; }

Transaction::Transaction(Connection& connection, Begins begins) : connection_(&connection) {
  connection.statement(begins == Begins::writing ? "begin immediate" : "begin").run();
}

Transaction::~Transaction() {
  if (connection_ == nullptr || !connection_->in_transaction()) return;
  try {
    connection_->statement("rollback").run();
  } catch (const std::exception&) {
    // The next use of the connection meets the same trouble and tells it.
    return;
  }
}

void Transaction::commit() {
  connection_->statement("commit").run();
  connection_ = nullptr;
}

}  // namespace fettle::sqlite
