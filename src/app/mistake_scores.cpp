#include "app/mistake_scores.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <exception>
#include <mutex>
#include <thread>

#include "advice/mistakes.h"
#include "app/judge_job.h"
#include "app/mistakes_asked.h"
#include "app/understand.h"

namespace fettle {
namespace {

/// Nothing but the estimates is needed: as few draws as there can be.
constexpr Accuracy kRough = {0, 20, 0.1, 64, 0};

constexpr double kFarUm = 24.9;  // 25 µm, as figures of divisions come out

ReadingAct as_typed(const Reading& reading) {
  return {reading.part, reading.station, reading.direction, reading.quantity.text, UnitId::division, reading.setting, reading.round, reading.order.value_or(1),
          reading.repeat, {}, {}, {}, {}, {}, {}};
}

/// One engine: honest, and with each mistake in turn.
class TriedEngine {
 public:
  TriedEngine(const EngineFamily& family, const Hand& hand, std::uint64_t seed, std::uint64_t number)
      : family_(family), honest_(simulate_engine(family, hand, seed, number)) {
    out_.engines = 1;
  }

  MistakeRates run() {
    out_.honest = honest_.job.readings.size();
    out_.falsely = asked_of(honest_.job).size();
    out_.falsely_arriving = asked_in_vain();
    for (const auto& [word, kind] : kPlantedKinds) try_kind(kind);
    return std::move(out_);
  }

 private:
  /// Event ids asked about; of exchanged readings all.
  struct About {
    std::vector<std::string> readings;
    std::string mistake;
  };
  [[nodiscard]] static std::vector<About> asked_of(const Job& job) {
    const Result<JudgedJob> judged = judge_job(job, {std::nullopt, kRough, JudgeDetail::verdicts});
    FETTLE_ASSERT(judged.ok(), job.id);
    std::vector<About> out;
    for (const MistakeAsked& each : mistakes_asked(judged.value())) out.push_back({each.readings, each.mistake});
    return out;
  }

  /// Whether a reading is asked about when those before it are in. What it read honestly stands when it was read again.
  [[nodiscard]] static bool asked_at(const Job& before, const Reading& reading) { return understand(before, as_typed(reading)).question.has_value(); }

  [[nodiscard]] std::size_t asked_in_vain() const {
    Job job = honest_.job;
    job.readings.clear();
    std::size_t out = 0;
    for (const Kept<Reading>& each : honest_.job.readings) {
      if (asked_at(job, each.value)) ++out;
      job.readings.push_back(each);
    }
    return out;
  }

  void try_kind(PlantedKind kind) {
    SimulatedEngine spoiled = honest_;
    KindFound found{kind};
    if (const auto planted = plant(spoiled, family_, kind)) {
      found.planted = 1;
      found.honest = spoiled.job.readings.size() - planted->readings.size();
      for (const About& each : asked_of(spoiled.job)) count(each, spoiled.job, *planted, found);
      found.far = std::abs(planted->off_um) >= kFarUm ? 1 : 0;
      found.far_asked = found.far > 0 ? found.asked : 0;
      Job job = spoiled.job;
      const std::size_t last = planted->readings.back();
      job.readings.resize(last);
      found.arriving = asked_at(job, spoiled.job.readings[last].value) ? 1 : 0;
    }
    out_.kinds.push_back(found);
  }

  static void count(const About& about, const Job& job, const Planted& planted, KindFound& found) {
    std::size_t beside = 0;
    bool right = false;
    for (const std::string& event : about.readings) {
      const bool is_planted = std::any_of(planted.readings.begin(), planted.readings.end(), [&](std::size_t k) { return job.readings[k].event == event; });
      right = right || is_planted;
      if (!is_planted) ++beside;
    }
    if (!right) found.beside += beside;
    if (!right || found.asked > 0) return;
    found.asked = 1;
    found.named = names_rightly(planted, about.mistake) ? 1 : 0;
  }

  const EngineFamily& family_;
  SimulatedEngine honest_;
  MistakeRates out_;
};

/// Engines of one family, shared out over the threads.
class TriedFamily {
 public:
  TriedFamily(const MistakeScoresRequest& request, const EngineFamily& family, const Hand& hand) : request_(request), family_(family), hand_(hand) {
    out_.family = family.id;
    out_.hand = hand.id;
  }

  /// False once anybody should stop.
  bool run(Progress& progress, long& done, long all) {
    const auto work = [&] {
      try {
        for (;;) {
          const std::size_t number = next_.fetch_add(1);
          if (number >= request_.engines || stopped_) return;
          MistakeRates one = TriedEngine(family_, hand_, request_.seed, number).run();
          const std::lock_guard<std::mutex> lock(mutex_);
          out_ += one;
          if (!progress.tell(++done, all)) stopped_ = true;
        }
      } catch (...) {
        const std::lock_guard<std::mutex> lock(mutex_);
        fault_ = std::current_exception();
        stopped_ = true;
      }
    };
    std::vector<std::thread> others;
    for (unsigned t = 1; t < request_.threads; ++t) others.emplace_back(work);
    work();
    for (std::thread& each : others) each.join();
    if (fault_) std::rethrow_exception(fault_);
    return !stopped_;
  }

  MistakeRates take() && { return std::move(out_); }

 private:
  const MistakeScoresRequest& request_;
  const EngineFamily& family_;
  const Hand& hand_;
  MistakeRates out_;
  std::mutex mutex_;
  std::atomic<std::size_t> next_ = 0;
  std::atomic<bool> stopped_ = false;
  std::exception_ptr fault_;
};

}  // namespace

MistakeRecord mistake_scores(const MistakeScoresRequest& request, Progress& progress) {
  MistakeRecord out{request.seed, request.engines, kAskFrom, {}, false};
  long done = 0;
  const long all = static_cast<long>(request.engines * request.families.size() * request.hands.size());
  for (const Hand& hand : request.hands) {
    for (const EngineFamily& family : request.families) {
      TriedFamily tried(request, family, hand);
      if (!tried.run(progress, done, all)) {
        out.stopped = true;
        return out;
      }
      out.families.push_back(std::move(tried).take());
    }
  }
  return out;
}

}  // namespace fettle
