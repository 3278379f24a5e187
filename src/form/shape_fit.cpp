#include "form/shape_fit.h"

#include <algorithm>
#include <cmath>

#include "base/assertion.h"
#include "numeric/elementary.h"

namespace fettle {
namespace {

constexpr double kDropped = 2e-3;
// What is added to the profile that was seen, so that little wear falls back on the textbook: 6 µm of exp(−h/0.4).
constexpr double kTextbookUm = 6.0;
constexpr double kTextbookStrokes = 0.4;
constexpr double kProfileFloor = 0.06;

struct Weighted {
  ShapeScales scales;
  double weight;
};

/// Posterior weights; those below `kDropped` fall away. `log_evidence` is of all of them.
std::vector<Weighted> weigh(const ShapePrior& prior, BlockGaussian& model, const std::vector<WeightedScales>& scales,
                            const std::vector<std::vector<double>>& profiles, double& log_evidence) {
  std::vector<double> log_weight;
  double best = -1e300;
  double prior_sum = 0.0;
  for (std::size_t n = 0; n < scales.size(); ++n) {
    // The loose branch follows its tight one and differs from it in one column.
    const bool follows = n > 0 && scales[n].scales.loose && !scales[n - 1].scales.loose;
    const double log_likelihood =
        follows ? model.log_likelihood_rescaled(prior.as_made_column(), prior.as_made_sd(true) / prior.as_made_sd(false))
                : model.log_likelihood(prior.law(scales[n].scales, profiles[n]));
    log_weight.push_back(log_likelihood + natural_log(scales[n].weight));
    best = std::max(best, log_weight.back());
    prior_sum += scales[n].weight;
  }
  double sum = 0.0;
  for (double& each : log_weight) {
    each = exponential(each - best);
    sum += each;
  }
  log_evidence = best + natural_log(sum / prior_sum);
  std::vector<Weighted> out;
  double kept = 0.0;
  for (std::size_t n = 0; n < scales.size(); ++n) {
    const double weight = log_weight[n] / sum;
    if (weight < kDropped) continue;
    out.push_back({scales[n].scales, weight});
    kept += weight;
  }
  for (Weighted& each : out) each.weight /= kept;
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.weight > b.weight; });
  return out;
}

std::vector<double> scaled_to_one(std::vector<double> profile, double floor) {
  const double greatest = *std::max_element(profile.begin(), profile.end());
  FETTLE_ASSERT(greatest > 0.0, "profile of a group");
  for (double& each : profile) each = std::max(each / greatest, floor);
  return profile;
}

std::vector<double> textbook_of(const ShapePrior& prior, const ShapeScales& scales) {
  return scaled_to_one(prior.textbook_profile(scales.profile_strokes), kProfileFloor);
}

/// Posterior weights where each node has the textbook profile of its length.
std::vector<Weighted> weigh_by_textbook(const ShapePrior& prior, BlockGaussian& model, const std::vector<WeightedScales>& scales,
                                        double& log_evidence) {
  std::vector<std::vector<double>> profiles;
  for (const WeightedScales& each : scales) profiles.push_back(textbook_of(prior, each.scales));
  return weigh(prior, model, scales, profiles, log_evidence);
}

/// Where the group wears, from the first pass: its mean size at each station above what it was made with.
std::vector<double> profile_seen(const ShapeKnowledge& knowledge, const ShapePrior& prior, BlockGaussian& model,
                                 ShapeFreedom freedom) {
  double ignored = 0.0;
  const std::size_t stations = knowledge.height.size();
  const std::size_t directions = knowledge.angle_degrees.size();
  std::vector<double> worn(stations, 0.0);
  for (const Weighted& each : weigh_by_textbook(prior, model, first_pass_scales(knowledge, freedom), ignored)) {
    const std::vector<double> profile = textbook_of(prior, each.scales);
    const GaussianPosterior posterior = model.posterior(prior.law(each.scales, profile), BlockGaussian::Detail::estimate);
    const double made = knowledge.as_made_um + prior.as_made_sd(each.scales.loose) * posterior.common[prior.as_made_column()];
    for (const BlockPosterior& block : posterior.blocks) {
      for (std::size_t c = 0; c < block.mean.size(); ++c) {
        worn[c / directions] += each.weight * (block.mean[c] - made) / static_cast<double>(posterior.blocks.size() * directions);
      }
    }
  }
  const std::vector<double> textbook = prior.textbook_profile(kTextbookStrokes);
  for (std::size_t h = 0; h < stations; ++h) {
    worn[h] = knowledge.wears[h] ? std::max(worn[h], 0.0) + kTextbookUm * textbook[h] : 0.0;
  }
  std::vector<double> profile = scaled_to_one(std::move(worn), kProfileFloor);
  for (std::size_t h = 0; h < stations; ++h) {
    if (!knowledge.wears[h]) profile[h] = 0.0;
  }
  return profile;
}

/// Where it is taken as the kind says.
std::vector<double> profile_stated(const ShapeKnowledge& knowledge, const ShapePrior& prior) {
  std::vector<double> profile = prior.textbook_profile(kTextbookStrokes);
  for (std::size_t h = 0; h < profile.size(); ++h) {
    if (!knowledge.wears[h]) profile[h] = 0.0;
  }
  return profile;
}

}  // namespace

ShapeFit fit_textbook(const ShapeKnowledge& knowledge, BlockGaussian& model, ShapeFreedom freedom) {
  FETTLE_ASSERT(learns_its_profile(knowledge.pattern), "textbook profiles");
  const ShapePrior prior(knowledge);
  ShapeFit fit{{}, {}, 0.0};
  for (const Weighted& each : weigh_by_textbook(prior, model, lone_part_scales(knowledge, freedom), fit.log_evidence)) {
    const std::vector<double> profile = textbook_of(prior, each.scales);
    fit.nodes.push_back({each.scales, each.weight, model.posterior(prior.law(each.scales, profile), BlockGaussian::Detail::with_left_out), 0});
  }
  return fit;
}

ShapeFit fit_shape(const ShapeKnowledge& knowledge, BlockGaussian& model, ShapeFreedom freedom) {
  const ShapePrior prior(knowledge);
  ShapeFit fit{{}, {}, 0.0};
  fit.profile = learns_its_profile(knowledge.pattern) ? profile_seen(knowledge, prior, model, freedom) : profile_stated(knowledge, prior);
  const std::vector<WeightedScales> scales = second_pass_scales(knowledge, freedom);
  const std::vector<std::vector<double>> profiles(scales.size(), fit.profile);
  for (const Weighted& each : weigh(prior, model, scales, profiles, fit.log_evidence)) {
    fit.nodes.push_back({each.scales, each.weight,
                         model.posterior(prior.law(each.scales, fit.profile), BlockGaussian::Detail::with_left_out),
                         0});
  }
  return fit;
}

}  // namespace fettle
