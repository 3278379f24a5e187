#include "simulate/engine.h"

#include "base/digest.h"

namespace fettle {
namespace {

constexpr const char* kRemark = "Invented and simulated: no such engine exists, and nobody read it.";

class JobMaker {
 public:
  JobMaker(const EngineFamily& family, const Hand& hand, std::uint64_t seed, std::uint64_t number) : family_(family) {
    job_.id = "simulated-" + family.id + "-" + hand.id + "-" + std::to_string(seed) + "-" + std::to_string(number);
    job_.opened = keep(JobOpened{"Simulated engine " + std::to_string(number) + ", family " + family.id,
                                 DecimalMark::point, std::nullopt, UnitId::millimetre, kRemark});
    job_.rule = usual_rule();
  }

  void add_parts() {
    job_.layouts.push_back(keep(LayoutChosen{family_.kind, family_.layout}));
    for (std::size_t part = 0; part < family_.parts; ++part) {
      job_.parts.push_back(keep(Part{part_id(family_, part), family_.kind, std::to_string(part + 1), std::nullopt,
                                     family_.told_step, family_.told_condition}));
    }
  }

  void add_work(std::vector<Gauge> gauges, HandWork work) {
    for (Gauge& gauge : gauges) job_.gauges.push_back(keep(std::move(gauge)));
    for (Setting& setting : work.settings) job_.settings.push_back(keep(std::move(setting)));
    job_.readings.reserve(work.readings.size());
    for (Reading& reading : work.readings) job_.readings.push_back(keep(std::move(reading)));
  }

  void add_limits() {
    if (family_.tells_tolerance) {
      const bool bore = family_.feature == Feature::inside;
      add_limit(bore ? "size-3" : "size-1", LimitRole::fresh, LimitSide::at_least, typed_length(family_.new_low, 3));
      add_limit(bore ? "size-1" : "size-3", LimitRole::fresh, LimitSide::at_most, typed_length(family_.new_high, 3));
    }
    for (const FamilyLimit& limit : family_.limits)
      add_limit(limit.definition, LimitRole::service, limit_side(family_, limit.definition), limit.bound);
  }

  Job take() && { return std::move(job_); }

 private:
  template <class T>
  Kept<T> keep(T value) {
    return {digest({"simulated", job_.id, std::to_string(++made_)}), std::move(value)};
  }

  void add_limit(const std::string& definition, LimitRole role, LimitSide side, const TypedQuantity& bound) {
    const std::string id = std::string(role_name(role)) + "-" + definition;
    job_.limits.push_back(keep(Limit{id,
                                     family_.kind,
                                     definition,
                                     role,
                                     side,
                                     bound,
                                     std::nullopt,
                                     typed_length(family_.standard, 3),
                                     {std::string(kSimulatedBook), "", "1", "", false, false}}));
  }

  const EngineFamily& family_;
  Job job_{};
  std::uint64_t made_ = 0;
};

}  // namespace

void add_work(SimulatedEngine& engine, HandWork work) {
  Job& job = engine.job;
  const auto id = [&](const char* what, std::size_t n) { return digest({"simulated", job.id, what, std::to_string(n)}); };
  for (Setting& setting : work.settings) job.settings.push_back({id("setting", job.settings.size()), std::move(setting)});
  for (Reading& reading : work.readings) job.readings.push_back({id("reading", job.readings.size()), std::move(reading)});
}

SimulatedEngine simulate_engine(const EngineFamily& family, const Hand& hand, std::uint64_t seed,
                                std::uint64_t number) {
  EngineTruth truth = draw_truth(family, seed, number);
  Generator generator = engine_generator(family, seed, number, 1);
  JobMaker maker(family, hand, seed, number);
  maker.add_parts();
  maker.add_work(gauges_of(hand, family), read_engine(hand, family, truth, generator));
  maker.add_limits();
  return {std::move(maker).take(), std::move(truth), seed, number, family.id, hand.id};
}

}  // namespace fettle
