#include "app/simulate_guided.h"

#include <algorithm>
#include <cmath>

#include "advice/next_visit.h"
#include "advice/settling.h"
#include "app/judge_job.h"
#include "app/simulated_engines.h"

namespace fettle {
namespace {

constexpr std::size_t kMostVisits = 6;
constexpr std::size_t kMostReadings = 8;  // of one visit
constexpr std::size_t kNotebookReadings = 6;
constexpr std::size_t kGuideDraws = 512;
constexpr double kShareWanted = 0.25;
constexpr double kLowestPriceSought = 0.05;

struct NextVisit {
  double worth = 0.0;
  std::vector<PlaceAgain> places;
};

JudgedJob judged_engine(const SimulatedEngine& engine, const Accuracy& accuracy, NormalPoints& points) {
  Result<JudgedJob> judged = judge_job(engine.job, {std::nullopt, accuracy, JudgeDetail::verdicts, &points});
  FETTLE_ASSERT(judged.ok(), engine.job.id);
  return std::move(judged).value();
}

std::size_t part_number(const EngineFamily& family, const std::string& id) {
  std::size_t part = 0;
  while (part < family.parts && part_id(family, part) != id) ++part;
  FETTLE_ASSERT(part < family.parts, id);
  return part;
}

std::vector<std::string> parts_in(const GroupEstimate& group) {
  std::vector<std::string> out;
  for (const PartEstimate& each : group.parts) out.push_back(each.part);
  return out;
}

/// The group whose verdict is most open, with what is at stake in it; parts that left their group are groups of their own.
struct OpenGroup {
  GroupDraws draws;
  SizeSet own;
  Stake stake;
};

std::optional<OpenGroup> most_open(const JudgedJob& judged, double chance) {
  std::optional<OpenGroup> best;
  double most = -1.0;
  std::vector<Limit> limits;
  for (const auto& each : judged.job.limits) limits.push_back(each.value);
  for (std::size_t g = 0; g < judged.groups.size(); ++g) {
    if (!judged.groups[g].shape) continue;
    SizeSet own = sizes_of(judged.sizes, parts_in(judged.groups[g]));
    GroupDraws draws = draw_group(*judged.groups[g].shape, own, kGuideDraws, judged.judgement.accuracy.seed);
    Stake stake = whole_group(*judged.judgement.groups[g], limits, draws, chance);
    if (stake.variance <= most) continue;
    most = stake.variance;
    best = OpenGroup{std::move(draws), std::move(own), std::move(stake)};
  }
  return best;
}

NextVisit worthiest(const JudgedJob& judged, const EngineFamily& family, double chance, const WrongCosts& costs) {
  NextVisit out;
  const double now = cost_of_deciding(chance, costs);
  const VisitPlan plan{VisitSort::fresh_setting, 1, kMostReadings};
  if (now / minutes_of(plan, 1, {}) < kLowestPriceSought) return out;
  const auto open = most_open(judged, chance);
  if (!open || open->stake.variance <= 0.0) return out;
  const std::vector<VisitStep> steps = plan_visit(plan, open->draws, open->own, {open->stake}, {1.0});
  std::size_t best = 0;
  for (std::size_t k = 0; k < steps.size(); ++k) {
    const double worth = (now - cost_after(chance, steps[k].explained.front(), costs)) / minutes_of(plan, k + 1, {});
    if (worth <= out.worth) continue;
    out.worth = worth;
    best = k + 1;
  }
  for (const PlaceToRead& each : places_of(steps, best)) {
    out.places.push_back({part_number(family, open->draws.parts[each.part]), each.cell, each.times});
  }
  return out;
}

class Guiding {
 public:
  Guiding(const EngineFamily& family, const Hand& hand, std::uint64_t seed, std::uint64_t number, const Accuracy& accuracy, Costs costs,
          double lowest_price, NormalPoints& points)
      : family_(family), hand_(hand), seed_(seed), number_(number), accuracy_(accuracy), costs_{costs.wrong_pass, costs.wrong_fail},
        lowest_price_(lowest_price), points_(points), truth_(family), first_(simulate_engine(family, hand, seed, number)) {}

  GuidedOutcome run() {
    GuidedOutcome out{truth_.keeps(first_.truth), {}, {}};
    guide(out);
    keep_notebook(out);
    return out;
  }

 private:
  void visit(SimulatedEngine& engine, std::size_t number, const std::vector<PlaceAgain>& places) const {
    add_work(engine, read_again(hand_, family_, engine.truth, seed_, number_, number, places));
  }

  void guide(GuidedOutcome& out) {
    SimulatedEngine engine = first_;
    for (std::size_t visits = 1;; ++visits) {
      const JudgedJob judged = judged_engine(engine, accuracy_, points_);
      const Outcome decided = decide(engine, truth_, judged.judgement, judged.groups, std::nullopt);
      NextVisit next;
      if (decided.ours && visits <= kMostVisits) next = worthiest(judged, family_, *decided.ours, costs_);
      out.guided.push_back({decided.ours, decided.guarded_passes, engine.job.readings.size(), engine.job.settings.size(), next.worth});
      if (next.places.empty() || next.worth < lowest_price_) return;
      visit(engine, visits, next.places);
    }
  }

  /// Limits by how near the reading that decides is; the notebook reads the places of the nearest ones again.
  void keep_notebook(GuidedOutcome& out) {
    SimulatedEngine engine = first_;
    for (std::size_t visits = 1;; ++visits) {
      const JudgedJob judged = judged_engine(engine, accuracy_, points_);
      const Outcome decided = decide(engine, truth_, judged.judgement, judged.groups, std::nullopt);
      std::vector<Near> near = nearness(judged);
      const double past = near.empty() ? 0.0 : std::abs(near.front().past_um);
      out.notebook.push_back({decided.notebook_equal_passes, decided.notebook_equal_fails, engine.job.readings.size(), engine.job.settings.size(),
                              near.empty() ? 1e9 : past});
      if (near.empty() || visits > kMostVisits || past > kWidestBandUm) return;
      visit(engine, visits, places_to_read(near));
    }
  }

  struct Near {
    double past_um;  ///< past the limit: above nothing is beyond
    std::vector<PlaceAgain> places;
  };

  /// Farthest past its limit first: that is what decides.
  [[nodiscard]] std::vector<Near> nearness(const JudgedJob& judged) const {
    std::vector<Near> out;
    for (const Verdict& verdict : judged.judgement.verdicts) {
      const auto limit = std::find_if(judged.job.limits.begin(), judged.job.limits.end(), [&](const auto& each) { return each.value.id == verdict.limit; });
      if (limit->value.role != LimitRole::service || !verdict.as_measured) continue;
      const double sign = limit->value.side == LimitSide::at_most ? 1.0 : -1.0;
      const double counts = static_cast<double>(Length::kCountsPerMillimetre) / 1000.0;
      Near near{sign * (*verdict.as_measured - verdict.bound).to_double() / counts, {}};
      for (const std::size_t station : verdict.measured_where.stations) {
        for (const std::size_t direction : verdict.measured_where.directions) {
          near.places.push_back({part_number(family_, verdict.part), family_.layout.cell(station, direction), 1});
        }
      }
      out.push_back(std::move(near));
    }
    std::stable_sort(out.begin(), out.end(), [](const Near& a, const Near& b) { return a.past_um > b.past_um; });
    return out;
  }

  /// Of the limits that are farthest past, as many places as a visit has; those of the first once more if there are fewer.
  [[nodiscard]] static std::vector<PlaceAgain> places_to_read(const std::vector<Near>& near) {
    std::vector<PlaceAgain> out;
    for (const Near& each : near) {
      for (const PlaceAgain& place : each.places) {
        const bool there = std::any_of(out.begin(), out.end(), [&](const PlaceAgain& one) { return one.part == place.part && one.cell == place.cell; });
        if (!there && out.size() < kNotebookReadings) out.push_back(place);
      }
    }
    return out;
  }

  static constexpr double kWidestBandUm = 25.0;

  const EngineFamily& family_;
  const Hand& hand_;
  std::uint64_t seed_;
  std::uint64_t number_;
  Accuracy accuracy_;
  WrongCosts costs_;
  double lowest_price_;
  NormalPoints& points_;
  TruthJudge truth_;
  SimulatedEngine first_;
};

}  // namespace

GuidedOutcome guide_engine(const EngineFamily& family, const Hand& hand, std::uint64_t seed, std::uint64_t number, const Accuracy& accuracy,
                           Costs costs, double lowest_price, NormalPoints& points) {
  return Guiding(family, hand, seed, number, accuracy, costs, lowest_price, points).run();
}

GuidedRecord simulate_guided(const SimulateRequest& request, std::optional<double> price, Progress& progress) {
  GuidedRecord out{request.seed, request.engines, request.costs, price ? std::nullopt : std::optional(kShareWanted), {}, {}, false};
  SharedProgress shared(progress, static_cast<long>(request.engines * request.families.size() * request.hands.size()));
  for (const Hand& hand : request.hands) {
    std::vector<std::vector<GuidedOutcome>> all;
    for (const EngineFamily& family : request.families) {
      all.push_back(over_engines<GuidedOutcome>(request.engines, request.threads, request.accuracy.seed, shared, [&](std::size_t number, NormalPoints& points) {
        return guide_engine(family, hand, request.seed, number, request.accuracy, request.costs, price.value_or(kLowestPriceSought), points);
      }));
      if (all.back().empty()) {
        out.stopped = true;
        return out;
      }
    }
    const double at = price ? *price : price_for(all, kShareWanted);
    std::vector<StatedChance> chances;
    for (std::size_t f = 0; f < all.size(); ++f) {
      out.families.push_back(guided_scores(request.families[f].id, hand.id, all[f], request.costs, at));
      if (!out.families.back().before) continue;  // nothing is at stake
      const std::vector<StatedChance> of_family = chances_after_guiding(all[f], at);
      chances.insert(chances.end(), of_family.begin(), of_family.end());
    }
    out.hands.push_back({hand.id, at, reliability(chances)});
  }
  return out;
}

}  // namespace fettle
