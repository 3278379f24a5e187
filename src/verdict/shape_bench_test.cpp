#include "verdict/shape_bench.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>

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
TEST(ShapeBench, ChancesAreAsAccurateAsIsAskedInTrials) {
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

/// Share of a million plain draws of a block of which `keeps` is true.
double share_of_draws(const ShapeGroup& group, std::size_t block, const std::function<bool(const std::vector<double>&)>& keeps) {
  Generator generator(23, 5);
  double share = 0.0;
  for (const MixtureNode& node : group.mixture) {
    const BlockPosterior& here = node.blocks[block];
    const std::size_t cells = here.mean.size();
    std::vector<double> factor = here.whole;
    EXPECT_TRUE(factor_upper(factor, cells));
    const auto count = static_cast<std::size_t>(node.weight * 1e6) + 1;
    std::vector<double> z(cells);
    std::size_t kept = 0;
    for (std::size_t k = 0; k < count; ++k) {
      generator.normals(z);
      std::vector<double> x = here.mean;
      for (std::size_t j = 0; j < cells; ++j) {
        for (std::size_t i = j; i < cells; ++i) x[i] += factor[j * cells + i] * z[j];
      }
      kept += keeps(x) ? 1U : 0U;
    }
    share += node.weight * static_cast<double>(kept) / static_cast<double>(count);
  }
  return share;
}

// What lies outside of a convex region, and an amplitude: reckoned here from the definitions' words, not from the program's regions. Places are
// heights times 0, 45, 90, 135 degrees, so that the amplitude is 2 √(((D0 - D90)/2)² + ((D45 - D135)/2)²).
TEST(ShapeBench, LeastGreatestAtLeastAndAmplitude) {
  const EngineFamily& family = *find_family(built_in_families(), "ovality-turned");
  const auto& directions = family.layout.directions;
  ASSERT_EQ(directions.size(), 4U);
  for (std::size_t k = 0; k < 4; ++k) ASSERT_EQ(directions[k].angle_degrees.to_double(), 45.0 * static_cast<double>(k));
  const std::size_t cells = family.layout.cells();
  const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), "coarse"), 8, 1);
  const Result<JudgedJob> judged = judge_job(engine.job, {{}, usual_accuracy(), JudgeDetail::verdicts});
  ASSERT_TRUE(judged.value().groups.front().shape != nullptr);
  const ShapeGroup& group = *judged.value().groups.front().shape;
  const auto largest = [](const std::vector<double>& x) { return *std::max_element(x.begin(), x.end()); };
  const auto smallest = [](const std::vector<double>& x) { return *std::min_element(x.begin(), x.end()); };
  const auto amplitude = [&](const std::vector<double>& x) {
    double worst = 0.0;
    for (std::size_t c = 0; c < cells; c += 4) {
      const double a = (x[c] - x[c + 2]) / 2.0;
      const double b = (x[c + 1] - x[c + 3]) / 2.0;
      worst = std::max(worst, 2.0 * std::sqrt(a * a + b * b));
    }
    return worst;
  };
  struct Asked {
    const char* definition;
    LimitSide side;
    std::function<double(const std::vector<double>&)> value;  ///< µm from the origin, or a difference
    bool a_size;
  };
  const std::vector<Asked> all = {{"size-1", LimitSide::at_least, largest, true},    {"size-3", LimitSide::at_least, smallest, true},
                                  {"size-3", LimitSide::at_most, smallest, true},    {"oor-6", LimitSide::at_most, amplitude, false},
                                  {"oor-6", LimitSide::at_least, amplitude, false}};
  NormalPoints points(20);
  for (const Asked& asked : all) {
    const auto& known = catalogue().definitions;
    const auto definition = std::find_if(known.begin(), known.end(), [&](const auto& each) { return each.id == asked.definition; });
    const auto whole = expand(*definition, {Feature::inside, family.layout, std::vector<bool>(cells, true), {}});
    ASSERT_TRUE(whole.ok()) << asked.definition;
    for (const std::size_t block : {1U}) {
      std::vector<double> mean(cells);
      for (std::size_t c = 0; c < cells; ++c) mean[c] = 1000.0 * (place_posterior(group, block, c).mean_mm - group.origin.base_mm);
      for (const double room_um : {0.0, 2.0}) {
        const double bound_um = asked.value(mean) + room_um;
        const double bound_mm = bound_um / 1000.0 + (asked.a_size ? group.origin.base_mm : 0.0);
        const Region region = region_of(whole.value(), bound_mm, asked.side, group.origin);
        const double chance = chance_of(group.mixture, block, {region}, {0.0002, 1U << 20U}, points).value;
        const double drawn = share_of_draws(group, block, [&](const std::vector<double>& x) {
          return asked.side == LimitSide::at_most ? asked.value(x) <= bound_um : asked.value(x) >= bound_um;
        });
        EXPECT_GT(drawn, 0.02);
        EXPECT_LT(drawn, 0.98);
        EXPECT_NEAR(chance, drawn, 0.0025) << asked.definition << " " << block << " " << room_um;  // four standard errors of the draws and some
      }
    }
  }
}

TEST(ShapeBench, MedianAndChanceNeverContradictAndSharesAddUpInTrials) {
  std::size_t seen = 0;
  std::size_t at_bound = 0;
  Accuracy accuracy = usual_accuracy();
  accuracy.draws = 0;
  for (std::uint64_t number = 0; number < 200; ++number) {
    const EngineFamily& family = *find_family(built_in_families(), number % 2 == 0 ? "exp" : "ovality-turned");
    const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), "coarse"), 4, number);
    const Result<JudgedJob> judged = judge_job(engine.job, {{}, accuracy, JudgeDetail::verdicts});
    double least = 1.0;
    double least_error = 0.0;
    double left = 1.0;
    double squares = 0.0;
    for (const Verdict& verdict : judged.value().judgement.verdicts) {
      if (!verdict.chance || !verdict.best) continue;
      ++seen;
      const double bound = verdict.bound.to_double() / static_cast<double>(Length::kCountsPerMillimetre);
      const bool at_most = !verdict.limit.starts_with("new-size-3");
      EXPECT_EQ(verdict.chance->value >= 0.5, at_most ? verdict.best->median <= bound : verdict.best->median >= bound) << verdict.limit;
      EXPECT_LE(verdict.best->low, verdict.best->high);
      // Where draws and chance disagree the median is put at the bound. A thousand draws leave 1.6 % in a share of a half: four of that.
      if (std::abs(verdict.best->median - bound) < 1e-12) {
        EXPECT_NEAR(verdict.chance->value, 0.5, 0.065) << number << verdict.limit;
        ++at_bound;
      }
      double shares = 0.0;
      for (const Share& share : verdict.chance_shares) shares += share.share;
      EXPECT_NEAR(shares, 1.0, 1e-9);
      if (verdict.limit.starts_with("new")) continue;
      if (verdict.chance->value < least) {
        least = verdict.chance->value;
        least_error = verdict.chance->standard_error;
      }
      squares += verdict.chance->standard_error * verdict.chance->standard_error;
      left -= 1.0 - verdict.chance->value;
    }
    const Chance& joint = *judged.value().judgement.joint.chance;
    // Four standard errors as stated: of the joint chance, and of the twelve on the other side together.
    EXPECT_LE(joint.value, least + 4.0 * std::sqrt(joint.standard_error * joint.standard_error + least_error * least_error));
    EXPECT_GE(joint.value, left - 4.0 * std::sqrt(joint.standard_error * joint.standard_error + squares));
  }
  EXPECT_GT(seen, 3000U);
  EXPECT_LT(at_bound, seen / 50);
}

// The interval from draws against the chances from points: 5 % of the doubt lie below it and 5 % above.
TEST(ShapeBench, TheIntervalHoldsNinetyPercent) {
  NormalPoints points(3);
  double worst = 0.0;
  for (std::uint64_t number = 0; number < 20; ++number) {
    const EngineFamily& family = *find_family(built_in_families(), "exp");
    const SimulatedEngine engine = simulate_engine(family, *find_hand(built_in_hands(), "mid"), 4, number);
    const Result<JudgedJob> judged = judge_job(engine.job, {{}, usual_accuracy(), JudgeDetail::verdicts});
    const std::shared_ptr<const ShapeGroup>& group = judged.value().groups.front().shape;
    if (!group) continue;
    for (const Verdict& verdict : judged.value().judgement.verdicts) {
      const auto block = block_of(*group, verdict.part);
      if (!verdict.best || !block || !verdict.limit.starts_with("service-")) continue;
      const std::string definition = verdict.limit.substr(8);
      for (const auto& [bound, share] : {std::pair{verdict.best->low, 0.05}, std::pair{verdict.best->high, 0.95}}) {
        const Region region = region_of_limit(definition.c_str(), bound, family.layout, group->origin);
        const double chance = chance_of(group->mixture, *block, {region}, {0.001, 1U << 18U}, points).value;
        // Independent draws would leave 0.007; evenly spread ones less.
        EXPECT_NEAR(chance, share, 0.025) << number << verdict.part << verdict.limit;
        worst = std::max(worst, std::abs(chance - share));
      }
    }
  }
  RecordProperty("worst", std::to_string(worst));
  EXPECT_GT(worst, 0.0);
}

}  // namespace
}  // namespace fettle
