#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "store_sqlite/connection.h"

namespace fettle::sqlite {

/// A few connections that read beside the writer. More callers than connections wait their turn.
class Readers {
 public:
  Readers(std::string path, std::chrono::milliseconds busy_wait) : path_(std::move(path)), busy_wait_(busy_wait) {}

  /// Calls `read` with a connection inside one read transaction: it sees the store as it was at one moment.
  template <class Read>
  auto run(const Read& read) {
    const Lease lease(*this);
    Transaction moment(*lease.connection, Begins::reading);
    return read(*lease.connection);
  }

 private:
  struct Lease {
    explicit Lease(Readers& of) : readers(&of), connection(of.take()) {}
    Lease(const Lease&) = delete;
    Lease& operator=(const Lease&) = delete;
    ~Lease() { readers->give_back(std::move(connection)); }
    Readers* readers;
    std::unique_ptr<Connection> connection;
  };

  std::unique_ptr<Connection> take();
  void give_back(std::unique_ptr<Connection> connection);

  std::string path_;
  std::chrono::milliseconds busy_wait_;
  std::mutex mutex_;
  std::condition_variable free_;
  std::vector<std::unique_ptr<Connection>> idle_;
  std::size_t opened_ = 0;
};

}  // namespace fettle::sqlite
