#include "form/shape_screen.h"

#include <algorithm>
#include <cmath>

#include "numeric/elementary.h"

namespace fettle {
namespace {

constexpr double kHalfLogTwoPi = 0.91893853320467274178;
constexpr double kLeastVariance = 1e-6;  // µm²
constexpr double kLeastExponent = -740.0;

double log_normal(double off, double variance) { return -0.5 * (off * off / variance + natural_log(variance)) - kHalfLogTwoPi; }

ShapeFit screened(const ShapeKnowledge& knowledge, BlockGaussian& model, ShapeFreedom freedom) {
  return model.blocks() == 1 && learns_its_profile(knowledge.pattern) ? fit_textbook(knowledge, model, freedom) : fit_shape(knowledge, model, freedom);
}

/// α and P of one block at one node, the noise of a mistake taken off the rows that are asked about (Sherman and Morrison).
struct BlockInformation {
  std::vector<double> weighed;
  std::vector<double> precision;
  double log_weight;

  void take_noise_off(std::size_t k) {
    const std::size_t n = weighed.size();
    const double share = kMistakeUm * kMistakeUm / std::max(1.0 - kMistakeUm * kMistakeUm * precision[k * n + k], 1e-12);
    const double inflated = 1.0 / precision[k * n + k];
    const double honest = std::max(inflated - kMistakeUm * kMistakeUm, kLeastVariance);
    const double off = weighed[k] * inflated;
    log_weight += log_normal(off, honest) - log_normal(off, inflated);
    std::vector<double> column(n);
    for (std::size_t i = 0; i < n; ++i) column[i] = precision[i * n + k];
    const double by = share * weighed[k];
    for (std::size_t i = 0; i < n; ++i) {
      weighed[i] += by * column[i];
      for (std::size_t j = 0; j < n; ++j) precision[i * n + j] += share * column[i] * column[j];
    }
  }

  [[nodiscard]] double log_ratio(const std::vector<std::pair<std::size_t, double>>& shifts) const {
    const std::size_t n = weighed.size();
    double out = 0.0;
    for (const auto& [i, by] : shifts) {
      out += weighed[i] * -by;
      for (const auto& [k, other] : shifts) out -= 0.5 * by * other * precision[i * n + k];
    }
    return out;
  }
};

}  // namespace

std::vector<BlockRows> worth_little(std::vector<BlockRows> rows, const std::vector<RowPlace>& mistaken) {
  for (const auto& [b, k] : mistaken) rows[b].noise[k * rows[b].cell.size() + k] += kMistakeUm * kMistakeUm;
  return rows;
}

double log_sum(const std::vector<double>& all) {
  double best = -1e300;
  for (const double each : all) best = std::max(best, each);
  double sum = 0.0;
  for (const double each : all) {
    if (each - best > kLeastExponent) sum += exponential(each - best);
  }
  return sum > 0.0 ? best + natural_log(sum) : best;
}

ShapeScreen::ShapeScreen(const ShapeKnowledge& knowledge, const ShapeRows& rows, ShapeFreedom freedom, std::vector<RowPlace> mistaken)
    : mistaken_(std::move(mistaken)), model_(worth_little(rows.blocks, mistaken_), rows.error_columns), fit_(screened(knowledge, model_, freedom)) {}

bool ShapeScreen::is_mistaken(const RowPlace& at) const { return std::find(mistaken_.begin(), mistaken_.end(), at) != mistaken_.end(); }

Forecast ShapeScreen::forecast(const RowPlace& at) const {
  const auto [b, k] = at;
  const double value = model_.rows(b).value[k];
  const double noise = is_mistaken(at) ? kMistakeUm * kMistakeUm : 0.0;
  Forecast out;
  out.reserve(fit_.nodes.size());
  for (const FittedNode& node : fit_.nodes) {
    const LeftOut& left = node.posterior.left_out[b];
    const double whole = left.row_sd[k] * left.row_sd[k];
    const double log_weight = fit_.log_evidence + natural_log(node.weight) - left.row_log_density[k];
    out.push_back({log_weight, value - left.standardised[k] * left.row_sd[k], std::sqrt(std::max(whole - noise, kLeastVariance))});
  }
  return out;
}

double ShapeScreen::log_shift_ratio(std::size_t block, const std::vector<std::pair<std::size_t, double>>& shifts) const {
  std::vector<double> as_read;
  std::vector<double> shifted;
  for (const FittedNode& node : fit_.nodes) {
    BlockInformation information{node.posterior.weighed[block], *node.posterior.left_out[block].precision, natural_log(node.weight)};
    for (const auto& [row, by] : shifts) {
      if (is_mistaken({block, row})) information.take_noise_off(row);
    }
    as_read.push_back(information.log_weight);
    shifted.push_back(information.log_weight + information.log_ratio(shifts));
  }
  return log_sum(shifted) - log_sum(as_read);
}

}  // namespace fettle
