#include "form/group_draws.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/assertion.h"
#include "form/shape_prior.h"
#include "numeric/draws.h"
#include "numeric/triangular.h"

namespace fettle {
namespace {

constexpr std::size_t kMostFollowed = 12;
constexpr double kWorthFollowingUm = 0.2;
constexpr double kWeightDrawn = 0.97;
constexpr std::size_t kMostNodes = 24;
constexpr double kUmPerMm = 1000.0;
constexpr std::uint64_t kDrawsOfGroup = 8;  ///< stream of the seed

/// Sources that readings share, those of most weight, ascending.
std::vector<std::size_t> followed_sources(const SizeSet& own) {
  std::map<std::size_t, double> weight;
  for (const Size& size : own.sizes) {
    for (const ErrorTerm& term : size.terms) {
      if (own.sources[term.source].scope == ErrorScope::reading) continue;
      const double um = std::abs(term.coefficient) * own.sources[term.source].standard_uncertainty * kUmPerMm;
      weight[term.source] = std::max(weight[term.source], um);
    }
  }
  std::vector<std::pair<double, std::size_t>> ranked;
  for (const auto& [source, um] : weight) {
    if (um >= kWorthFollowingUm) ranked.emplace_back(-um, source);
  }
  std::sort(ranked.begin(), ranked.end());
  if (ranked.size() > kMostFollowed) ranked.resize(kMostFollowed);
  std::vector<std::size_t> out;
  for (const auto& each : ranked) out.push_back(each.second);
  std::sort(out.begin(), out.end());
  return out;
}

/// The heaviest nodes with how many draws each gets.
std::vector<std::pair<const FittedNode*, std::size_t>> nodes_drawn(const std::vector<FittedNode>& nodes, std::size_t count) {
  std::vector<std::pair<const FittedNode*, std::size_t>> out;
  double all = 0.0;
  std::size_t used = 0;
  while (used < nodes.size() && used < kMostNodes && all < kWeightDrawn) all += nodes[used++].weight;
  double passed = 0.0;
  std::size_t given = 0;
  for (std::size_t n = 0; n < used; ++n) {
    passed += nodes[n].weight / all;
    const std::size_t upto = n + 1 == used ? count : static_cast<std::size_t>(passed * static_cast<double>(count) + 0.5);
    if (upto > given) out.emplace_back(&nodes[n], upto - given);
    given = std::max(given, upto);
  }
  return out;
}

class ShapeDrawing {
 public:
  ShapeDrawing(const ShapeGroup& group, const SizeSet& own, std::size_t count, std::uint64_t seed)
      : group_(group), followed_(followed_sources(own)), rows_(shape_rows(group.parts, own, group.origin, followed_)), generator_(seed, kDrawsOfGroup),
        out_{count, group.origin, group.parts, {}, own.sources, std::vector<std::vector<double>>(own.sources.size())} {
    out_.places.assign(group.parts.size(), std::vector<std::vector<double>>(group.knowledge.cells(), std::vector<double>(count)));
    for (const std::size_t source : followed_) out_.errors[source].resize(count);
  }

  GroupDraws run() {
    const ShapePrior prior(group_.knowledge);
    std::size_t first = 0;
    for (const auto& [node, count] : nodes_drawn(group_.nodes, out_.count)) {
      const ShapeAssumption& assumption = group_.assumptions[node->assumption];
      BlockGaussian model(blocks_under(assumption), rows_.error_columns);
      draw(model.posterior(prior.law(node->scales, assumption.profile), BlockGaussian::Detail::estimate), first, count);
      first += count;
    }
    return std::move(out_);
  }

 private:
  /// What counts as a mistake in this assumption has the same extra noise as there.
  [[nodiscard]] std::vector<BlockRows> blocks_under(const ShapeAssumption& assumption) const {
    std::vector<BlockRows> out = rows_.blocks;
    for (const auto& [b, k] : assumption.mistaken) {
      const std::size_t at = k * out[b].cell.size() + k;
      out[b].noise[at] += assumption.model.rows(b).noise[at] - group_.rows.blocks[b].noise[at];
    }
    return out;
  }

  void draw(const GaussianPosterior& posterior, std::size_t first, std::size_t count) {
    const std::size_t q = posterior.common.size();
    std::vector<double> eta = normals(q * count);
    for (std::size_t b = 0; b < posterior.blocks.size(); ++b) draw_block(posterior.blocks[b], eta, b, first, count);
    solve_upper(posterior.whitener, q, eta, count);
    for (std::size_t k = 0; k < followed_.size(); ++k) {
      const std::size_t column = q - followed_.size() + k;
      for (std::size_t d = 0; d < count; ++d) out_.errors[followed_[k]][first + d] = posterior.common[column] + eta[column * count + d];
    }
  }

  void draw_block(const BlockPosterior& block, const std::vector<double>& eta, std::size_t b, std::size_t first, std::size_t count) {
    const std::size_t cells = block.mean.size();
    const std::size_t q = block.gain.size() / cells;
    std::vector<double> factor = block.own;
    // What is known to the last bit leaves a matrix without an inverse: a nanometre keeps it definite.
    for (std::size_t c = 0; c < cells; ++c) factor[c * cells + c] += 1e-6;
    const bool definite = factor_upper(factor, cells);
    FETTLE_ASSERT(definite, "own part of a block");
    const std::vector<double> z = normals(cells * count);
    for (std::size_t c = 0; c < cells; ++c) {
      const std::span<double> to = std::span(out_.places[b][c]).subspan(first, count);
      std::fill(to.begin(), to.end(), block.mean[c]);
      for (std::size_t j = 0; j < q; ++j) add_scaled(to, block.gain[c * q + j], std::span(eta).subspan(j * count, count));
      for (std::size_t j = 0; j <= c; ++j) add_scaled(to, factor[j * cells + c], std::span(z).subspan(j * count, count));
    }
  }

  std::vector<double> normals(std::size_t n) {
    std::vector<double> out(n);
    generator_.normals(out);
    return out;
  }

  const ShapeGroup& group_;
  std::vector<std::size_t> followed_;
  ShapeRows rows_;
  Generator generator_;
  GroupDraws out_;
};

}  // namespace

GroupDraws draw_group(const ShapeGroup& group, const SizeSet& own, std::size_t count, std::uint64_t seed) {
  return ShapeDrawing(group, own, count, seed).run();
}

GroupDraws draw_group(const GroupEstimate& plain, std::size_t count, std::uint64_t seed) {
  Generator generator(seed, kDrawsOfGroup);
  GroupDraws out{count, {0.0, 1.0}, {}, {}, plain.sources, std::vector<std::vector<double>>(plain.sources.size())};
  for (std::size_t s = 0; s < plain.sources.size(); ++s) {
    out.errors[s].resize(count);
    generator.normals(out.errors[s]);
  }
  for (const PartEstimate& part : plain.parts) {
    out.parts.push_back(part.part);
    out.places.emplace_back(part.places.size());
    for (std::size_t c = 0; c < part.places.size(); ++c) {
      if (!part.places[c]) continue;
      std::vector<double>& to = out.places.back()[c];
      to.assign(count, part.places[c]->estimate * kUmPerMm);
      for (const ErrorTerm& term : part.places[c]->terms) {
        add_scaled(to, -term.coefficient * plain.sources[term.source].standard_uncertainty * kUmPerMm, out.errors[term.source]);
      }
    }
  }
  return out;
}

}  // namespace fettle
