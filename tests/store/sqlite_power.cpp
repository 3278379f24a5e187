#include <gmock/gmock.h>

#include <filesystem>
#include <map>

#include "numeric/xoshiro.h"
#include "store/failing_disk.h"
#include "store/sqlite_maker.h"
#include "store/test_events.h"
#include "store/test_folder.h"

namespace fettle {
namespace {

using ::testing::IsEmpty;

constexpr std::size_t kSector = 512;

struct Change {
  bool truncates;
  std::size_t at;  ///< or the new size
  std::string bytes;
};

/// One file on a disk with a cache: what was waited for is on it, and of the changes after that any may be.
struct CachedFile {
  std::string on_disk;
  std::vector<Change> in_cache;
};

void apply(std::string& bytes, const Change& change) {
  if (change.truncates) {
    bytes.resize(change.at);
    return;
  }
  if (bytes.size() < change.at + change.bytes.size()) bytes.resize(change.at + change.bytes.size());
  bytes.replace(change.at, change.bytes.size(), change.bytes);
}

/// A disk whose power is cut at one of its writes. What is left is then any part of what stood in the cache, sector by sector.
class PowerCut final : public DiskWatcher {
 public:
  PowerCut(long nth, const std::vector<Acknowledged>& acknowledged) : nth_(nth), acknowledged_(&acknowledged) {}

  void writes(const std::string& file, const std::string& bytes, std::size_t at) override {
    step();
    files_[file].in_cache.push_back({false, at, bytes});
  }
  void truncates(const std::string& file, std::size_t size) override {
    step();
    files_[file].in_cache.push_back({true, size, {}});
  }
  void waits_for_disk(const std::string& file) override {
    step();
    CachedFile& cached = files_[file];
    for (const Change& each : cached.in_cache) apply(cached.on_disk, each);
    cached.in_cache.clear();
  }
  void removes(const std::string& file) override { files_.erase(file); }

  [[nodiscard]] bool happened() const { return happened_; }
  [[nodiscard]] const std::vector<Acknowledged>& promised() const { return promised_; }

  /// Writes what was left of the store into another folder.
  void leave(const std::string& from, const std::string& to, Xoshiro256& draws) const {
    for (const auto& [name, file] : left_) {
      std::string bytes = file.on_disk;
      for (const Change& change : file.in_cache) apply_part(bytes, change, draws);
      if (name.starts_with(from)) write_bytes(to + name.substr(from.size()), bytes);
    }
  }

 private:
  void step() {
    if (++seen_ != nth_) return;
    happened_ = true;
    left_ = files_;
    promised_ = *acknowledged_;
  }

  static void apply_part(std::string& bytes, const Change& change, Xoshiro256& draws) {
    if (change.truncates) {
      if (draws.next() % 2 == 0) apply(bytes, change);
      return;
    }
    const bool all = draws.next() % 3 == 0;
    for (std::size_t at = 0; at < change.bytes.size(); at += kSector) {
      if (all || draws.next() % 2 == 0) apply(bytes, {false, change.at + at, change.bytes.substr(at, kSector)});
    }
  }

  long nth_;
  const std::vector<Acknowledged>* acknowledged_;
  long seen_ = 0;
  bool happened_ = false;
  std::map<std::string, CachedFile> files_;
  std::map<std::string, CachedFile> left_;
  std::vector<Acknowledged> promised_;
};

class SqlitePower : public testing::Test {
 protected:
  ~SqlitePower() override { the_disk().tell(nullptr); }

  /// Some 2,500 writes, with photos and rows among the events, so that the log is carried over into the file more than once.
  void work(Store& store) {
    for (std::int64_t i = 1; i <= 420; ++i) {
      const Envelope event = some_event(i % 4 == 0 ? "knot" : "tern", i);
      acknowledged.push_back({event, store.accept({event}).value().front()});
      if (i % 100 == 0) store.keep_file(some_file(i, 700'000));
      if (i % 30 == 0) store.keep_row(some_row(i));
    }
  }

  SetClock time;
  std::vector<Acknowledged> acknowledged;
};

TEST_F(SqlitePower, WhatWasAcknowledgedOutlivesAPowerCutAtAnyWrite) {
  std::size_t promised = 0;
  for (std::uint64_t trial = 0; trial < 16; ++trial) {
    Xoshiro256 draws = Xoshiro256::stream(31, trial);
    SCOPED_TRACE("trial " + std::to_string(trial));
    acknowledged.clear();
    const TestFolder folder;
    PowerCut cut(static_cast<long>(1 + draws.next() % 3000), acknowledged);
    the_disk().tell(&cut);
    {
      const auto store = open_sqlite(sqlite_file(folder.path()), time);
      work(*store);
    }
    the_disk().tell(nullptr);
    ASSERT_TRUE(cut.happened());
    for (int remains = 0; remains < 3; ++remains) {
      const TestFolder after;
      cut.leave(folder.path(), after.path(), draws);
      const auto store = open_sqlite(sqlite_file(after.path()), time);
      EXPECT_THAT(broken_promises(*store, cut.promised()), IsEmpty());
      EXPECT_TRUE(store->accept({some_event("tern", 9999)}).ok());
    }
    promised += cut.promised().size();
  }
  EXPECT_GT(promised, 16U * 100U);
}

}  // namespace
}  // namespace fettle
