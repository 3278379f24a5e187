// How long one act takes, from what was typed to what is answered, on a job of so many events: fettle_acts_speed [FILE]
// FILE: a record on the disk that is meant, made anew; without it in memory. Void if what is in memory is not the fold of the log.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "app/do_acts.h"
#include "app/new_engine.h"
#include "store/memory_store.h"
#include "store_sqlite/sqlite_store.h"

namespace {

using namespace fettle;

constexpr int kBefore = 300;
constexpr int kMeasured = 500;
constexpr int kBores = 4;
constexpr int kPlaces = 8;

class FixedClock final : public Clock {
 public:
  [[nodiscard]] std::string now() override { return "2031-05-04T08:12:00.000000Z"; }
};

std::int64_t sequence = 0;

Act act(ActBody body) {
  const std::string number = std::to_string(++sequence);
  return {{std::string(32 - number.size(), 'a') + number, "d-1", sequence, "2031-05-04T10:12:05+02:00", "JB"}, std::move(body)};
}

std::string setting_of(int reading) { return "bg-" + std::to_string(reading / (kBores * kPlaces)); }

Act reading(int number) {
  const char* stations[] = {"top", "mid", "bottom", "foot"};
  const char* directions[] = {"thrust", "pin"};
  const int place = number % kPlaces;
  const int wear = 60 / (1 + place % 4) + number % 7;
  return act(ReadingAct{"bore-" + std::to_string(number / kPlaces % kBores + 1), stations[place % 4], directions[place / 4], std::to_string(wear) + " acw",
                        UnitId::division, setting_of(number), "1", number % (kBores * kPlaces) + 1, {}, {}, {}, {}, {}, {}, {}});
}

bool kept(const Result<ActsDone>& done) {
  return done.ok() && std::all_of(done.value().acts.begin(), done.value().acts.end(), [](const ActDone& each) { return each.kept; });
}

bool do_one(OpenJobs& jobs, const std::string& job, int number) {
  if (number % (kBores * kPlaces) == 0 &&
      !kept(do_acts(jobs, job, {act(SettingAct{setting_of(number), "bg", "mic", "78.000 mm", "3.0709 in", {}, {}, {}, {}, {}})}))) {
    return false;
  }
  return kept(do_acts(jobs, job, {reading(number)}));
}

int measure(Store& store) {
  OpenJobs jobs(store);
  const NewEngineAct engine{act(WithdrawAct{}).head, "Linnet 4", "invented", UnitId::millimetre, DecimalMark::point, {{"cylinder-bore", kBores}}, {}, {}, {}, {}};
  const std::string job = new_engine(store, engine).value();
  const auto limit = [](const std::string& id, const std::string& definition, LimitRole role, LimitSide side, const std::string& bound) {
    return act(LimitAct{id, "cylinder-bore", definition, role, side, bound, "invented", "first", "1"});
  };
  bool good = kept(do_acts(jobs, job, {act(GaugeAct{"mic", "outside-micrometer-3-4-in", {}, {}, {}, "3.0001 in", "3.0000 in", {}}),
                                       act(GaugeAct{"bg", "dial-bore-gauge-0-001-mm", {}, {}, NeedleSide::clockwise, {}, {}, {}}),
                                       limit("low", "size-3", LimitRole::fresh, LimitSide::at_least, "78.000 mm"),
                                       limit("high", "size-1", LimitRole::fresh, LimitSide::at_most, "78.020 mm"),
                                       limit("service", "size-1", LimitRole::service, LimitSide::at_most, "78.100 mm")}));
  for (int i = 0; i < kBefore; ++i) good = good && do_one(jobs, job, i);
  std::vector<double> microseconds;
  for (int i = kBefore; i < kBefore + kMeasured; ++i) {
    const auto from = std::chrono::steady_clock::now();
    good = good && do_one(jobs, job, i);
    microseconds.push_back(std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - from).count());
  }
  const RecordedJob log = open_recorded(store, job).value();
  good = good && log.job == jobs.job(job).value()->job && log.job.readings.size() == std::size_t{kBefore + kMeasured};
  std::sort(microseconds.begin(), microseconds.end());
  double sum = 0;
  for (const double each : microseconds) sum += each;
  std::printf("%d acts on a job of %d events and more: mean %.0f, median %.0f, 99 in 100 under %.0f microseconds%s\n", kMeasured, kBefore,
              sum / kMeasured, microseconds[microseconds.size() / 2], microseconds[microseconds.size() * 99 / 100], good ? "" : "; VOID: wrong answer");
  return good ? 0 : 1;
}

}  // namespace

int main(int argc, char** argv) {
  FixedClock clock;
  if (argc < 2) {
    MemoryStore store(clock);
    return measure(store);
  }
  std::filesystem::remove(argv[1]);
  const auto store = open_sqlite_store(argv[1], clock, usual_sqlite_options());
  return store.ok() ? measure(*store.value()) : 1;
}
