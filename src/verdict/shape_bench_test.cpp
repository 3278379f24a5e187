#include "verdict/shape_bench.h"

#include <gtest/gtest.h>

#include <cmath>

#include "app/judge_job.h"
#include "catalogue/catalogue.h"
#include "form/expand.h"
#include "numeric/draws.h"
#include "numeric/triangular.h"
#include "simulate/engine.h"
#include "simulate/families_file.h"
#include "verdict/chance_region.h"

namespace fettle {
namespace {

/// One limit of one part of a simulated engine that went through the model.
struct Case {
  std::shared_ptr<const ShapeGroup> group;
  std::size_t block;
  std::vector<Region> regions;  ///< one limit, or all three
};

Region region_of_limit(const char* definition, double bound_mm, const Layout& layout, const ShapeOrigin& origin) {
  const auto& known = catalogue().definitions;
  const auto found = std::find_if(known.begin(), known.end(), [&](const auto& each) { return each.id == definition; });
  const auto whole = expand(*found, {Feature::inside, layout, std::vector<bool>(layout.cells(), true), {}});
  return region_of(whole.value(), bound_mm, LimitSide::at_most, origin);
}

/// Cases whose chance is not settled, from several families and both hands, in a fixed order.
std::vector<Case> open_cases(std::size_t wanted) {
  std::vector<Case> out;
  NormalPoints points(20);
  const ChanceAccuracy rough{0.01, 1U << 14U};
  for (std::uint64_t number = 0; out.size() < wanted; ++number) {
    for (const char* id : {"exp", "barrel", "ovality-turned", "rough", "few-one-bore"}) {
      const EngineFamily& family = *find_family(built_in_families(), id);
      const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), number % 2 == 0 ? "mid" : "coarse"), 8, number);
      Accuracy accuracy = usual_accuracy();
      accuracy.draws = 0;
      const Result<JudgedJob> judged = judge_job(engine.job, {{}, accuracy, JudgeDetail::verdicts});
      const std::shared_ptr<const ShapeGroup>& group = judged.value().groups.front().shape;
      if (!group) continue;
      const bool turned = std::string(id) == "ovality-turned";
      const std::vector<Region> all = {region_of_limit("size-1", 84.1, family.layout, group->origin),
                                       region_of_limit(turned ? "oor-2" : "oor-1", 0.03, family.layout, group->origin),
                                       region_of_limit("tap-2", 0.06, family.layout, group->origin)};
      for (std::size_t b = 0; b < group->parts.size(); ++b) {
        for (const std::vector<Region>& regions : {std::vector<Region>{all[0]}, {all[1]}, {all[2]}, all}) {
          const double chance = chance_of(group->mixture, b, regions, rough, points).value;
          if (chance > 0.03 && chance < 0.97 && out.size() < wanted) out.push_back({group, b, regions});
        }
      }
    }
  }
  return out;
}

/// Plain draws of the mixture, by hand.
double by_plain_draws(const Case& c, std::size_t draws) {
  Generator generator(17, 3);
  std::size_t kept = 0;
  std::size_t made = 0;
  for (const MixtureNode& node : c.group->mixture) {
    const BlockPosterior& here = node.blocks[c.block];
    const std::size_t cells = here.mean.size();
    std::vector<double> factor = here.whole;
    EXPECT_TRUE(factor_upper(factor, cells));
    const auto count = static_cast<std::size_t>(node.weight * static_cast<double>(draws));
    std::vector<double> z(cells);
    std::vector<double> x(cells);
    for (std::size_t k = 0; k < count; ++k, ++made) {
      generator.normals(z);
      x = here.mean;
      for (std::size_t j = 0; j < cells; ++j) {
        for (std::size_t i = j; i < cells; ++i) x[i] += factor[j * cells + i] * z[j];
      }
      bool all = true;
      for (const Region& region : c.regions) {
        for (const HalfSpace& half : region.half_spaces) {
          double value = 0.0;
          for (const auto& [cell, coefficient] : half.sum.terms) value += coefficient * x[cell];
          all = all && value <= half.most;
        }
      }
      kept += all ? 1U : 0U;
    }
  }
  return static_cast<double>(kept) / static_cast<double>(made);
}

// A hundred fixed cases, as accurate as is usual, against twenty times the accuracy; three of them against four million plain draws, whose
// own standard error is at most 0.00025.
TEST(ShapeBench, ChancesAreAsAccurateAsIsAsked) {
  const std::vector<Case> cases = open_cases(100);
  const Accuracy usual = usual_accuracy();
  double squares = 0.0;
  double worst = 0.0;
  double stated = 0.0;
  NormalPoints points(usual.seed);
  NormalPoints other(99);
  for (std::size_t k = 0; k < cases.size(); ++k) {
    const Case& c = cases[k];
    const Chance chance = chance_of(c.group->mixture, c.block, c.regions, {usual.chance_error, usual.most_points}, points);
    const Chance sure = chance_of(c.group->mixture, c.block, c.regions, {0.0002, 1U << 20U}, other);
    const double off = std::abs(chance.value - sure.value);
    squares += off * off / static_cast<double>(cases.size());
    worst = std::max(worst, off);
    stated = std::max(stated, chance.standard_error);
    if (k % 40 == 0) {
      EXPECT_NEAR(sure.value, by_plain_draws(c, 4'000'000), 0.0012) << k;
    }
  }
  EXPECT_LE(std::sqrt(squares), 0.002);
  EXPECT_LE(worst, 0.005);
  EXPECT_LE(stated, 0.002);
  RecordProperty("rms", std::to_string(std::sqrt(squares)));
  RecordProperty("worst", std::to_string(worst));
}

TEST(ShapeBench, MedianAndChanceNeverContradictAndSharesAddUp) {
  std::size_t seen = 0;
  for (std::uint64_t number = 0; number < 40; ++number) {
    const EngineFamily& family = *find_family(built_in_families(), number % 2 == 0 ? "exp" : "ovality-turned");
    const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), "coarse"), 4, number);
    const Result<JudgedJob> judged = judge_job(engine.job, {{}, usual_accuracy(), JudgeDetail::verdicts});
    double least = 1.0;
    double left = 1.0;
    for (const Verdict& verdict : judged.value().judgement.verdicts) {
      if (!verdict.chance || !verdict.best) continue;
      ++seen;
      const double bound = verdict.bound.to_double() / static_cast<double>(Length::kCountsPerMillimetre);
      const bool at_most = !verdict.limit.starts_with("new-size-3");
      EXPECT_EQ(verdict.chance->value >= 0.5, at_most ? verdict.best->median <= bound : verdict.best->median >= bound) << verdict.limit;
      EXPECT_LE(verdict.best->low, verdict.best->high);
      double shares = 0.0;
      for (const Share& share : verdict.chance_shares) shares += share.share;
      EXPECT_NEAR(shares, 1.0, 1e-9);
      if (verdict.limit.starts_with("new")) continue;
      least = std::min(least, verdict.chance->value);
      left -= 1.0 - verdict.chance->value;
    }
    const Chance& joint = *judged.value().judgement.joint.chance;
    EXPECT_LE(joint.value, least + 0.01);
    EXPECT_GE(joint.value, left - 0.02);
  }
  EXPECT_GT(seen, 500U);
}

}  // namespace
}  // namespace fettle
