#include "app/simulate_scores.h"

#include <algorithm>

#include "app/judge_job.h"
#include "app/simulated_engines.h"
#include "simulate/exact_chance.h"

namespace fettle {
namespace {

class FamilyRun {
 public:
  FamilyRun(const SimulateRequest& request, const EngineFamily& family, const Hand& hand)
      : request_(request), family_(family), hand_(hand), truth_(family) {}

  /// Empty if stopped.
  [[nodiscard]] std::vector<Outcome> run(SharedProgress& progress) const {
    return over_engines<Outcome>(request_.engines, request_.threads, request_.accuracy.seed, progress,
                                 [&](std::size_t number, NormalPoints& points) { return one(number, points); });
  }

 private:
  [[nodiscard]] Outcome one(std::size_t number, NormalPoints& points) const {
    const SimulatedEngine engine = simulate_engine(family_, hand_, request_.seed, number);
    const Result<JudgedJob> judged = judge_job(engine.job, {std::nullopt, request_.accuracy, JudgeDetail::verdicts, &points});
    FETTLE_ASSERT(judged.ok(), family_.id + " " + hand_.id + " " + std::to_string(number));
    std::optional<double> exact;
    if (number < request_.exact_engines && is_gaussian(family_)) exact = exact_chance(family_, engine, judged.value().sizes);
    return decide(engine, truth_, judged.value().judgement, judged.value().groups, exact);
  }

  const SimulateRequest& request_;
  const EngineFamily& family_;
  const Hand& hand_;
  TruthJudge truth_;
};

}  // namespace

SimulateRecord simulate_scores(const SimulateRequest& request, Progress& progress) {
  SimulateRecord out{request.seed, request.engines, request.exact_engines, request.accuracy.chance_error, request.costs, {}, {}, false};
  SharedProgress shared(progress, static_cast<long>(request.engines * request.families.size() * request.hands.size()));
  for (const Hand& hand : request.hands) {
    std::optional<double> tuned;
    std::vector<StatedChance> ours;
    std::vector<StatedChance> flat;
    std::vector<std::vector<Outcome>> at_stake;
    for (const EngineFamily& family : request.families) {
      const std::vector<Outcome> outcomes = FamilyRun(request, family, hand).run(shared);
      if (outcomes.empty()) {
        out.stopped = shared.stopped();
        return out;
      }
      if (!tuned) tuned = tune_threshold(outcomes, request.costs).value_or(cost_threshold(request.costs));
      FamilyScores scores{family.id, hand.id, score(outcomes, request.costs, *tuned), std::nullopt};
      const std::size_t exact = std::min(request.exact_engines, outcomes.size());
      if (exact >= 2 && is_gaussian(family)) {
        scores.with_exact = score(std::span(outcomes).first(exact), request.costs, *tuned);
      }
      if (verdict_at_stake(scores.scores)) {
        for (const Outcome& each : outcomes) {
          if (each.ours) ours.push_back({*each.ours, each.good, std::nullopt});
          if (each.flat) flat.push_back({*each.flat, each.good, std::nullopt});
        }
        at_stake.push_back(outcomes);
      }
      out.families.push_back(std::move(scores));
    }
    out.hands.push_back({hand.id, reliability(ours), reliability(flat), flat_by_hindsight(at_stake, request.costs)});
  }
  return out;
}

}  // namespace fettle
