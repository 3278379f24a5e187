#include "simulate/exact_chance.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "catalogue/catalogue.h"
#include "form/expand.h"
#include "form/shape_rows.h"
#include "numeric/elementary.h"
#include "numeric/kronecker.h"
#include "numeric/triangular.h"
#include "verdict/chance_region.h"

namespace fettle {
namespace {

constexpr std::uint64_t kSeed = 31;
constexpr double kLeastWeight = 3e-4;
// How far below the best a point may lie and still count, in log density: step by step the cube shrinks to where the weight is.
constexpr double kReach[] = {30.0, 14.0, 9.0};

/// A box in the unit cube of the hyperparameters.
struct Box {
  std::vector<double> low;
  std::vector<double> high;
};

struct Tried {
  std::vector<double> unit;
  double log_density;
};

BlockPrior law_of(const ConditionalTruth& truth) {
  const std::size_t cells = truth.mean.size();
  BlockPrior law{cells, truth.shared.columns, truth.mean, truth.shared.values, std::vector<double>(cells * cells, 0.0)};
  for (std::size_t i = 0; i < cells; ++i) {
    for (std::size_t k = 0; k < cells; ++k) {
      law.own[i * cells + k] = dot(std::span(truth.own.values).subspan(i * truth.own.columns, truth.own.columns),
                                   std::span(truth.own.values).subspan(k * truth.own.columns, truth.own.columns));
    }
  }
  return law;
}

class Exact {
 public:
  Exact(const EngineFamily& family, const SimulatedEngine& engine, const SizeSet& sizes)
      : family_(family), origin_{family.standard.millimetres(), 1.0}, rows_(rows_of(engine, sizes)),
        model_(rows_.blocks, rows_.error_columns), dimensions_(hyper_dimensions(family)) {}

  double chance(std::size_t points) {
    Box box{std::vector<double>(dimensions_, 0.0), std::vector<double>(dimensions_, 1.0)};
    std::vector<Tried> tried;
    for (const double reach : kReach) {
      tried = try_points(box, points);
      box = where_it_counts(tried, reach, box);
      if (dimensions_ == 0) break;
    }
    if (dimensions_ > 0) tried = try_points(box, 2 * points);
    return over(tried);
  }

 private:
  ShapeRows rows_of(const SimulatedEngine& engine, const SizeSet& sizes) const {
    std::vector<std::string> parts;
    for (const auto& kept : engine.job.parts) parts.push_back(kept.value.id);
    return shape_rows(parts, sizes, origin_, {});
  }

  std::vector<Tried> try_points(const Box& box, std::size_t points) {
    std::vector<Tried> out;
    if (dimensions_ == 0) return {{{}, model_.log_likelihood(law_of(conditional_truth(family_, hyper_at(family_, {}))))}};
    const KroneckerPoints even(static_cast<int>(dimensions_), kSeed, KroneckerSteps::prime_roots);
    std::vector<double> unit(dimensions_);
    for (std::size_t n = 0; n < points; ++n) {
      even.point(n, unit);
      for (std::size_t d = 0; d < dimensions_; ++d) unit[d] = box.low[d] + (box.high[d] - box.low[d]) * unit[d];
      out.push_back({unit, model_.log_likelihood(law_of(conditional_truth(family_, hyper_at(family_, unit))))});
    }
    return out;
  }

  /// The box around the points within `reach` of the best, a little wider than they are apart.
  [[nodiscard]] Box where_it_counts(const std::vector<Tried>& tried, double reach, const Box& before) const {
    double best = -1e300;
    for (const Tried& each : tried) best = std::max(best, each.log_density);
    Box out{before.high, before.low};
    std::size_t inside = 0;
    for (const Tried& each : tried) {
      if (each.log_density < best - reach) continue;
      ++inside;
      for (std::size_t d = 0; d < dimensions_; ++d) {
        out.low[d] = std::min(out.low[d], each.unit[d]);
        out.high[d] = std::max(out.high[d], each.unit[d]);
      }
    }
    for (std::size_t d = 0; d < dimensions_; ++d) {
      // A neighbour in the old box is about this far away in one coordinate.
      const double apart = (before.high[d] - before.low[d]) * (inside > 60 ? 0.04 : 0.15);
      out.low[d] = std::max(before.low[d], out.low[d] - apart);
      out.high[d] = std::min(before.high[d], out.high[d] + apart);
    }
    return out;
  }

  double over(const std::vector<Tried>& tried) {
    double best = -1e300;
    for (const Tried& each : tried) best = std::max(best, each.log_density);
    double sum = 0.0;
    for (const Tried& each : tried) sum += exponential(each.log_density - best);
    GaussianMixture mixture;
    double kept = 0.0;
    for (const Tried& each : tried) {
      const double weight = exponential(each.log_density - best) / sum;
      if (weight < kLeastWeight) continue;
      kept += weight;
      const Hyper hyper = hyper_at(family_, each.unit);
      GaussianPosterior posterior =
          model_.posterior(law_of(conditional_truth(family_, hyper)), BlockGaussian::Detail::estimate);
      // Limits speak of the standard size; a range does not feel what is taken off every place.
      for (BlockPosterior& block : posterior.blocks) {
        for (double& mean : block.mean) mean -= hyper.step_um;
      }
      mixture.push_back({weight, std::move(posterior.blocks)});
    }
    for (MixtureNode& node : mixture) node.weight /= kept;
    NormalPoints normals(kSeed);
    const std::vector<std::vector<Region>> regions(rows_.blocks.size(), regions_of_one_part());
    return joint_chance(mixture, regions, {0.002, 1U << 15U}, normals).value;
  }

  [[nodiscard]] std::vector<Region> regions_of_one_part() const {
    std::vector<Region> out;
    for (const FamilyLimit& limit : family_.limits) {
      const auto& known = catalogue().definitions;
      const auto definition = std::find_if(known.begin(), known.end(), [&](const auto& each) { return each.id == limit.definition; });
      FETTLE_ASSERT(definition != known.end(), limit.definition);
      const auto whole = expand(*definition, {family_.feature, family_.layout, std::vector<bool>(family_.layout.cells(), true),
                                              {family_.standard, family_.standard}});
      FETTLE_ASSERT(whole.ok(), limit.definition);
      out.push_back(region_of(whole.value(), exact_length(limit.bound.quantity)->millimetres(),
                              limit_side(family_, limit.definition), origin_));
    }
    return out;
  }

  const EngineFamily& family_;
  ShapeOrigin origin_;
  ShapeRows rows_;
  BlockGaussian model_;
  std::size_t dimensions_;
};

}  // namespace

double exact_chance(const EngineFamily& family, const SimulatedEngine& engine, const SizeSet& sizes,
                    std::size_t points_of_each_step) {
  FETTLE_ASSERT(is_gaussian(family), family.id);
  return Exact(family, engine, sizes).chance(points_of_each_step);
}

}  // namespace fettle
