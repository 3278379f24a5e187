#pragma once

#include <chrono>
#include <cstdint>
#include <map>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace fettle::sqlite {

class Connection;

/// One SQL statement while it is used: bind its placeholders in order, step, read columns (from 0). Free for the next user when it goes.
class Statement {
 public:
  Statement(Connection& connection, sqlite3_stmt* statement) : connection_(&connection), statement_(statement) {}
  Statement(const Statement&) = delete;
  Statement& operator=(const Statement&) = delete;
  ~Statement();

  /// The bytes must live until the last step.
  Statement& text(std::string_view value);
  Statement& blob(std::string_view value);
  Statement& number(std::int64_t value);

  /// True: there is a row. Throws StoreError.
  [[nodiscard]] bool step();
  /// Steps to the end.
  void run();

  /// Of a text or a blob, byte for byte.
  [[nodiscard]] std::string bytes(int column) const;
  [[nodiscard]] std::int64_t integer(int column) const;

 private:
  Connection* connection_;
  sqlite3_stmt* statement_;
  int bound_ = 0;
};

enum class Access { read, write, create };

/// One open database file, used by one thread at a time. Statements are prepared once. All functions throw StoreError.
class Connection {
 public:
  Connection(const std::string& path, Access access, std::chrono::milliseconds busy_wait);
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection();

  [[nodiscard]] Statement statement(const std::string& sql);
  /// One or more statements without placeholders.
  void script(const std::string& sql);
  /// The only number of the only row; 0 if there is none.
  [[nodiscard]] std::int64_t number(const std::string& sql);
  [[nodiscard]] std::string text(const std::string& sql);

  [[nodiscard]] bool in_transaction() const;
  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] sqlite3* handle() const { return handle_; }
  /// Throws what `code` means, unless it is a success.
  void check(int code) const;

 private:
  void open(Access access, std::chrono::milliseconds busy_wait);

  std::string path_;
  sqlite3* handle_ = nullptr;
  std::map<std::string, sqlite3_stmt*> prepared_;
};

enum class Begins { reading, writing };

/// Undone when it goes, unless committed.
class Transaction {
 public:
  Transaction(Connection& connection, Begins begins);
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  ~Transaction();
  void commit();

 private:
  Connection* connection_;
};

}  // namespace fettle::sqlite
