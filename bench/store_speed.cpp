// How fast events are acknowledged, beside bare inserts of the same bytes in the same minute on the same disk; and how fast a job of 5,000
// events is opened. Checks what it wrote before it prints a figure.
//   fettle_store_speed [folder]        the folder lies on the disk to be measured; /tmp if not named
#include <sqlite3.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <functional>
#include <iostream>
#include <stdexcept>
#include <thread>
#include <vector>

#include "store_sqlite/sqlite_store.h"

namespace fettle {
namespace {

constexpr int kRounds = 9;
constexpr std::int64_t kEvents = 600;
constexpr int kThreads = 8;

class OneTime final : public Clock {
 public:
  std::string now() override { return "2031-05-04T08:12:00.000000Z"; }
};

void need(bool holds, const std::string& what) {
  if (!holds) throw std::runtime_error("void: " + what);
}

std::string padded(std::int64_t number) {
  const std::string digits = std::to_string(number);
  return std::string(32 - digits.size(), '0') + digits;
}

std::string line_of(std::int64_t number) {
  return R"({"type":"ReadingTaken","version":1,"part":"bore-3","station":"mid","direction":"thrust","text":"+0,031","unit":"mm","setting":"first",)"
         R"("round":1,"repeat":1,"who":"Ada","made_at":"2031-05-04T10:12:00+02:00","device":"tablet-2","sequence":)" +
         std::to_string(number) + "}";
}

double seconds(const std::function<void()>& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// A table of two columns, one durable insert at a time, with the pragmas of the store.
class Bare {
 public:
  explicit Bare(const std::string& path) {
    need(sqlite3_open(path.c_str(), &handle_) == SQLITE_OK, "bare file");
    run("pragma page_size=8192; pragma journal_mode=wal; pragma synchronous=full; create table event (number integer primary key, line text) strict;");
    sqlite3_prepare_v2(handle_, "insert into event values (?, ?)", -1, &insert_, nullptr);
  }
  Bare(const Bare&) = delete;
  Bare& operator=(const Bare&) = delete;
  ~Bare() {
    sqlite3_finalize(insert_);
    sqlite3_close(handle_);
  }
  void insert(std::int64_t number) {
    const std::string line = line_of(number);
    sqlite3_bind_int64(insert_, 1, number);
    sqlite3_bind_text(insert_, 2, line.data(), static_cast<int>(line.size()), SQLITE_STATIC);
    need(sqlite3_step(insert_) == SQLITE_DONE, "bare insert");
    sqlite3_reset(insert_);
  }

 private:
  void run(const char* sql) { need(sqlite3_exec(handle_, sql, nullptr, nullptr, nullptr) == SQLITE_OK, sql); }
  sqlite3* handle_ = nullptr;
  sqlite3_stmt* insert_ = nullptr;
};

struct Seconds {
  double bare;
  double one;
  double eight;
};

void accept_one(Store& store, const std::string& job, std::int64_t number) {
  need(store.accept({{job, padded(number), line_of(number)}}).value().size() == 1, "accept");
}

Seconds one_round(Bare& bare, Store& store, std::int64_t first) {
  Seconds out{};
  out.bare = seconds([&] {
    for (std::int64_t i = 0; i < kEvents; ++i) bare.insert(first + i);
  });
  out.one = seconds([&] {
    for (std::int64_t i = 0; i < kEvents; ++i) accept_one(store, "one", first + i);
  });
  out.eight = seconds([&] {
    std::vector<std::thread> threads;
    for (int t = 0; t < kThreads; ++t) {
      threads.emplace_back([&, t] {
        for (std::int64_t i = t; i < kEvents; i += kThreads) accept_one(store, "job-" + std::to_string(t), first + i);
      });
    }
    for (std::thread& thread : threads) thread.join();
  });
  return out;
}

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

void check(Store& store) {
  need(store.events("one", 0).size() == static_cast<std::size_t>(kRounds * kEvents), "events of one writer");
  std::size_t all = 0;
  for (int t = 0; t < kThreads; ++t) all += store.events("job-" + std::to_string(t), 0).size();
  need(all == static_cast<std::size_t>(kRounds * kEvents), "events of eight writers");
  need(store.faults().empty(), "faults");
}

void measure_opening(Store& store) {
  std::vector<Envelope> events;
  for (std::int64_t i = 1; i <= 5000; ++i) events.push_back({"large", padded(i), line_of(i)});
  need(store.accept(events).ok(), "large job");
  std::vector<double> times;
  for (int round = 0; round < kRounds; ++round) {
    std::vector<AcceptedEvent> read;
    times.push_back(seconds([&] { read = store.events("large", 0); }));
    need(read.size() == 5000 && chain_breaks(read).empty(), "events of the large job");
  }
  std::cout << "a job of 5,000 events opened: " << median(times) * 1000 << " ms (at most 50)\n";
}

void run(const std::string& folder) {
  std::filesystem::create_directories(folder);
  OneTime time;
  const auto store = open_sqlite_store(folder + "/store", time, usual_sqlite_options()).value().release();
  const std::unique_ptr<Store> owned(store);
  Bare bare(folder + "/bare");
  (void)one_round(bare, *owned, 0);
  std::vector<double> one;
  std::vector<double> eight;
  std::vector<double> rate;
  for (int round = 1; round < kRounds; ++round) {
    const Seconds took = one_round(bare, *owned, round * kEvents);
    one.push_back(took.bare / took.one);
    eight.push_back(took.bare / took.eight);
    rate.push_back(static_cast<double>(kEvents) / took.bare);
  }
  check(*owned);
  std::cout << "bare durable inserts: " << median(rate) << " a second\n"
            << "one writer, one event at a time: " << median(one) << " of bare (at least 0.7)\n"
            << "eight writers: " << median(eight) << " of bare (more than 1.0)\n";
  measure_opening(*owned);
}

}  // namespace
}  // namespace fettle

int main(int argc, char** argv) {
  const std::string folder = std::string(argc > 1 ? argv[1] : "/tmp") + "/fettle-store-speed";
  std::filesystem::remove_all(folder);
  try {
    fettle::run(folder);
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
  std::filesystem::remove_all(folder);
  return 0;
}
