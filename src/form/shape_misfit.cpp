#include "form/shape_misfit.h"

#include <algorithm>
#include <cmath>

#include "numeric/chi_squared.h"
#include "numeric/elementary.h"
#include "numeric/normal.h"

namespace fettle {
namespace {

/// Node weights without what a reading (or part) itself says: w / p(it | rest), from logarithms.
class WeightsWithout {
 public:
  explicit WeightsWithout(const std::vector<FittedNode>& nodes) : nodes_(nodes), weights_(nodes.size()) {}

  template <class LogDensity>
  const std::vector<double>& of(LogDensity log_density) {
    double best = -1e300;
    for (std::size_t n = 0; n < weights_.size(); ++n) {
      weights_[n] = natural_log(nodes_[n].weight) - log_density(nodes_[n]);
      best = std::max(best, weights_[n]);
    }
    double sum = 0.0;
    for (double& each : weights_) {
      each = exponential(each - best);
      sum += each;
    }
    for (double& each : weights_) each /= sum;
    return weights_;
  }

 private:
  const std::vector<FittedNode>& nodes_;
  std::vector<double> weights_;
};

void check_rows(const std::vector<FittedNode>& nodes, const BlockGaussian& model, std::size_t block, WeightsWithout& without, ShapeMisfit& out) {
  const BlockRows& rows = model.rows(block);
  for (std::size_t k = 0; k < rows.value.size(); ++k) {
    const std::vector<double>& weights = without.of([&](const FittedNode& node) { return node.posterior.left_out[block].row_log_density[k]; });
    double tail = 0.0;
    double mean = 0.0;
    double square = 0.0;
    for (std::size_t n = 0; n < weights.size(); ++n) {
      const LeftOut& left = nodes[n].posterior.left_out[block];
      tail += weights[n] * 2.0 * normal_upper(std::abs(left.standardised[k]));
      const double off = left.standardised[k] * left.row_sd[k];
      mean += weights[n] * off;
      square += weights[n] * (off * off + left.row_sd[k] * left.row_sd[k]);
    }
    out.reading_tail[block].push_back(tail);
    out.expected[block].push_back(rows.value[k] - mean);
    out.expected_sd[block].push_back(std::sqrt(std::max(square - mean * mean, 0.0)));
  }
}

}  // namespace

ShapeMisfit misfit(const std::vector<FittedNode>& nodes, const BlockGaussian& model) {
  const std::size_t blocks = model.blocks();
  ShapeMisfit out{std::vector<std::vector<double>>(blocks), std::vector<std::vector<double>>(blocks),
                  std::vector<std::vector<double>>(blocks), std::vector<double>(blocks, 1.0), 0.0};
  WeightsWithout without(nodes);
  double all_rows = 0.0;
  for (std::size_t b = 0; b < blocks; ++b) {
    const double rows = static_cast<double>(model.rows(b).value.size());
    all_rows += rows;
    check_rows(nodes, model, b, without, out);
    if (blocks < 2 || rows == 0.0) continue;
    const std::vector<double>& weights = without.of([&](const FittedNode& node) { return node.posterior.left_out[b].log_density; });
    out.part_tail[b] = 0.0;
    for (std::size_t n = 0; n < weights.size(); ++n) {
      out.part_tail[b] += weights[n] * chi_squared_upper(nodes[n].posterior.left_out[b].chi_squared, rows);
    }
  }
  for (const FittedNode& node : nodes) {
    out.group_tail += node.weight * chi_squared_upper(std::max(node.posterior.chi_squared, 0.0), all_rows);
  }
  return out;
}

}  // namespace fettle
