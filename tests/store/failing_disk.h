#pragma once

#include <sqlite3.h>

#include <atomic>
#include <string>

namespace fettle {

/// Is told of all that reaches the disk, before it is done.
class DiskWatcher {
 public:
  virtual ~DiskWatcher() = default;
  virtual void writes(const std::string& file, const std::string& bytes, std::size_t at) = 0;
  virtual void truncates(const std::string& file, std::size_t size) = 0;
  virtual void waits_for_disk(const std::string& file) = 0;
  virtual void removes(const std::string& file) = 0;
};

/// A disk between SQLite and the real one that can be told to fail. While it is calm it changes nothing, but that the real disk is never
/// waited for: only a power cut could tell, and a watcher plays that. One for the whole program; it is where every database opened after
/// the first call of `the_disk` lies.
class FailingDisk {
 public:
  enum class Lasts { once, until_calm };

  /// The `nth` write, truncation or wait for the disk from now on (1 is the next) fails with `code`, once or with all after it.
  void fail_writing(long nth, int code, Lasts lasts);
  /// Every read of a page fails.
  void fail_reading();
  void calm();
  /// How many writes, truncations and waits there were since fail_writing.
  [[nodiscard]] long writes() const { return writes_; }
  /// Whether anything failed since it was told to.
  [[nodiscard]] bool failed() const { return failed_; }

  /// Nobody: nullptr.
  void tell(DiskWatcher* watcher) { watcher_ = watcher; }

  // Called by the disk itself.
  [[nodiscard]] DiskWatcher* watcher() const { return watcher_; }
  [[nodiscard]] int next_write();
  [[nodiscard]] int next_read();

 private:
  std::atomic<long> writes_ = 0;  ///< counted by all threads; all else is set while none writes
  long nth_ = 0;
  int code_ = SQLITE_OK;
  Lasts lasts_ = Lasts::once;
  bool reading_fails_ = false;
  std::atomic<bool> failed_ = false;
  DiskWatcher* watcher_ = nullptr;
};

[[nodiscard]] FailingDisk& the_disk();

}  // namespace fettle
